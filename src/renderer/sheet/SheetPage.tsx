import { type ReactNode, useId } from 'react'

import type { Page, PageList, PageTable } from '../../core/sheet/page.ts'

/** The page as it lies on paper. */
export function SheetPage({ page }: { readonly page: Page }): ReactNode {
  return (
    <article className="sheet-page" aria-label="Sheet">
      <header>
        <h1>{page.title}</h1>
        <dl>
          {page.facts.map(([name, value]) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
      </header>
      {page.blocks.map((block) =>
        block.kind === 'table' ? <Table key={block.title} {...block} /> : <List key={block.title} {...block} />,
      )}
    </article>
  )
}

function Table({ title, note, columns, rows }: PageTable): ReactNode {
  const heading = useId()
  const total = columns.reduce((sum, { share }) => sum + share, 0)
  return (
    <section>
      <h2 id={heading}>{title}</h2>
      {note === undefined ? null : <p className="sheet-note">{note}</p>}
      {/* Scrolls sideways on a narrow screen, by keys too. */}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be within reach of the keyboard. */}
      <section className="sheet-table" aria-labelledby={heading} tabIndex={0}>
        <table aria-labelledby={heading}>
          <colgroup>
            {columns.map(({ title: name, share }) => (
              <col key={name} style={{ width: `${(100 * share) / total}%` }} />
            ))}
          </colgroup>
          <thead>
            <tr>
              {columns.map(({ title: name }) => (
                <th key={name} scope="col">
                  {name === '' ? <span className="unseen">Sign</span> : name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.join('|')}>
                {columns.map(({ title: name, blank }, index) => (
                  <td key={name} className={blank === true ? 'to-fill' : undefined}>
                    {row[index]}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </section>
  )
}

function List({ title, lines }: PageList): ReactNode {
  if (lines.length === 0) return null
  return (
    <section>
      <h2>{title}</h2>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </section>
  )
}
