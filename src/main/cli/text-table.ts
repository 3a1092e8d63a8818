/** Rows as text columns, to the right; the first one to the left unless it holds numbers. */
export function textTable(rows: readonly (readonly string[])[], first: 'words' | 'numbers' = 'words'): string[] {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)))
  return rows.map((row) =>
    row
      .map((cell, column) =>
        column === 0 && first === 'words' ? cell.padEnd(widths[0] ?? 0) : cell.padStart(widths[column] ?? 0),
      )
      .join('  ')
      .trimEnd(),
  )
}

/** Lines under a heading; nothing at all when there are none. */
export function textSection(title: string, lines: readonly string[]): string {
  return lines.length === 0 ? '' : `\n${title}\n${lines.map((line) => `  ${line}\n`).join('')}`
}
