export type CsvCell = string | number | null

/**
 * Rows as comma-separated text, one line each, every line ended. A text that a spreadsheet would take for a formula gets
 * an apostrophe in front; a number stays a number whatever its sign.
 * Source: RFC 4180; OWASP, "CSV Injection" (the characters that begin a formula).
 */
export function csvText(rows: readonly (readonly CsvCell[])[]): string {
  return rows.map((cells) => `${cells.map(cellText).join(',')}\r\n`).join('')
}

function cellText(cell: CsvCell): string {
  if (cell === null) return ''
  if (typeof cell === 'number') return String(cell)
  const harmless = /^[=+\-@\t\r\n＝＋－＠]/.test(cell) ? `'${cell}` : cell
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless
}
