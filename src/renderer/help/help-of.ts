import { choiceKey, pathKey } from './inputs.ts'

/** Inputs that belong to one of the window's fields; what only opens a file or answers a dialog is none. */
export const FIELDS = 'input:not([type=file]):not(dialog input), select:not(dialog select)'

/** The key of a field's help: told by what surrounds it, else by its place in the plan, else by its label. */
export function helpKeyOf(element: Element): string | null {
  const told = element.closest('[data-help]')?.getAttribute('data-help')
  if (told) return told
  const path = element.getAttribute('data-field')
  if (path !== null) return pathKey(path)
  if (!(element instanceof HTMLSelectElement)) return null
  return choiceKey(element.getAttribute('aria-label') ?? element.labels[0]?.textContent ?? '')
}
