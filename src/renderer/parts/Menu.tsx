import { type KeyboardEvent, type ReactNode, useEffect, useId, useRef, useState } from 'react'

export interface MenuItem {
  readonly id: string
  readonly label: string
  /** Keys or a value at the end of the line. */
  readonly hint?: string
  readonly disabled?: boolean
  /** One of several that excludes the others. */
  readonly checked?: boolean
  /** A line above it. */
  readonly apart?: boolean
  /** Shows in narrow windows only, where it has no button of its own. */
  readonly narrow?: boolean
  readonly onChoose: () => void
}

interface MenuProps {
  readonly label: string
  /** What the button shows; the label is its name unless that is words already. */
  readonly children: ReactNode
  readonly items: readonly MenuItem[]
  readonly className?: string
  readonly named?: boolean
}

/** A button that opens a list of things to do; arrows, Home, End and Esc work. */
export function Menu({ label, children, items, className = 'icon-button', named = false }: MenuProps): ReactNode {
  const id = useId()
  const [open, setOpen] = useState(false)
  const root = useRef<HTMLDivElement>(null)
  const button = useRef<HTMLButtonElement>(null)

  useEffect(() => {
    if (!open) return
    const away = (event: PointerEvent): void => {
      if (event.target instanceof Node && !root.current?.contains(event.target)) setOpen(false)
    }
    document.addEventListener('pointerdown', away)
    root.current?.querySelector<HTMLElement>('[role^=menuitem]:not([aria-disabled])')?.focus()
    return () => document.removeEventListener('pointerdown', away)
  }, [open])

  function shut(): void {
    setOpen(false)
    button.current?.focus()
  }

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: keys of the list within bubble up to here
    <div className="menu" ref={root} onKeyDown={(event) => open && steer(event, root.current, shut)}>
      <button
        type="button"
        ref={button}
        className={className}
        aria-label={named ? undefined : label}
        title={named ? undefined : label}
        aria-haspopup="menu"
        aria-expanded={open}
        aria-controls={open ? id : undefined}
        onClick={() => setOpen(!open)}
      >
        {children}
      </button>
      {open ? (
        <div className="menu-list" role="menu" id={id} aria-label={label}>
          {items.map((item) => (
            <button
              key={item.id}
              type="button"
              tabIndex={-1}
              {...(item.checked === undefined
                ? { role: 'menuitem' }
                : { role: 'menuitemradio', 'aria-checked': item.checked })}
              aria-disabled={item.disabled || undefined}
              className={`menu-item${item.apart ? ' menu-apart' : ''}${item.narrow ? ' menu-narrow' : ''}`}
              onClick={() => {
                if (item.disabled) return
                shut()
                item.onChoose()
              }}
            >
              <span>{item.label}</span>
              {item.hint === undefined ? null : <span className="menu-hint">{item.hint}</span>}
            </button>
          ))}
        </div>
      ) : null}
    </div>
  )
}

function steer(event: KeyboardEvent, root: HTMLElement | null, shut: () => void): void {
  if (event.key === 'Escape') {
    event.stopPropagation()
    shut()
    return
  }
  if (event.key === 'Tab') {
    shut()
    return
  }
  const items = [...(root?.querySelectorAll<HTMLElement>('[role^=menuitem]:not([aria-disabled])') ?? [])].filter(
    (item) => item.offsetParent !== null,
  )
  const at = items.indexOf(document.activeElement as HTMLElement)
  const to: Record<string, number> = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: items.length - 1 }
  const next = to[event.key]
  if (next === undefined || items.length === 0) return
  event.preventDefault()
  items[(next + items.length) % items.length]?.focus()
}
