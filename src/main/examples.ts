import { Refusal } from './refusal.ts'

/** Plans to begin with, packed into the build so that they are there wherever the program is. */
const texts = import.meta.glob<string>('../../shared/examples/*.thickset', {
  query: '?raw',
  import: 'default',
  eager: true,
})

export interface Example {
  readonly id: string
  readonly title: string
  readonly text: string
}

const examples: readonly Example[] = Object.entries(texts).map(([path, text]) => ({
  id: path.replace(/^.*\//, '').replace('.thickset', ''),
  title: (JSON.parse(text) as { title: string }).title,
  text,
}))

/** The examples in the order of their file names. */
export function listExamples(): readonly Example[] {
  return examples
}

export function readExample(id: string): Example {
  const found = examples.find((example) => example.id === id)
  if (found === undefined) throw new Refusal('There is no such example.')
  return found
}
