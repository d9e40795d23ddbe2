/** Tables that hold nothing of the shop's work, only what opens its door. */
const secretTables = ['Session', 'OneTimeLink', 'SignInAttempt', 'SubmitKey']

/** A checksum of a file or of inputs is no secret; every other column with such a name is left out, also one still to come. */
const openColumns = ['sha256', 'inputsHash']
const secretName = /hash|password|token|secret|pin(?![a-z])/i

export const isSecretTable = (table: string): boolean => secretTables.includes(table)

export const isSecretColumn = (column: string): boolean =>
  secretName.test(column) && !openColumns.includes(column)

const units: readonly (readonly [ending: RegExp, unit: string])[] = [
  [/KgM3$/, 'kg/m³'],
  [/CentsPerKg$/, 'hundredths of the currency unit per kilogram'],
  [/CentsPerM$/, 'hundredths of the currency unit per metre'],
  [/CentsPerH$/, 'hundredths of the currency unit per hour'],
  [/(^c|C)ents$/, 'hundredths of the currency unit'],
  [/MinutesPerPiece$/, 'minutes per piece'],
  [/Minutes$/, 'minutes'],
  [/Days$/, 'days'],
  [/MPa$/, 'MPa (N/mm²)'],
  [/Kn$/, 'kN'],
  [/(^k|K)g$/, 'kg'],
  [/Mm$/, 'mm'],
  [/Deg$/, 'degrees of angle'],
  [/Pct$/, 'percent'],
  [/Ppm$/, 'millionths'],
  [/Fraction$/, 'share from 0 to 1'],
  [/(Coeff|Ratio|Factor)$/, 'a pure number'],
  [/byteCount$/, 'bytes'],
  [/[a-z](Count|Quantity)$|^(quantity|quantities)$/, 'pieces or times, a whole number'],
]

/** What a column's numbers are in, as its name says; '' for text and for what has no unit. */
export function unitOfColumn(column: string, type: string): string {
  if (type.startsWith('timestamp')) return 'moment, UTC, ISO 8601'
  if (type === 'date') return 'day, ISO 8601'
  return units.find(([ending]) => ending.test(column))?.[1] ?? ''
}

export type ColumnNotes = ReadonlyMap<string, string>

/**
 * The notes that stand above models and fields of the schema, by 'Model' and 'Model.field'. A field's note may take
 * several lines.
 */
export function schemaNotes(schemaText: string): ColumnNotes {
  const notes = new Map<string, string>()
  let model = ''
  let waiting: string[] = []
  for (const line of schemaText.split('\n')) {
    const note = /^\s*\/\/\/ ?(.*)$/.exec(line)
    const opened = /^model (\w+) \{/.exec(line)
    const field = /^ {2}(\w+)\s+\w/.exec(line)
    if (note) {
      waiting.push(note[1] ?? '')
      continue
    }
    if (opened) model = opened[1] ?? ''
    const name = opened ? model : field ? `${model}.${field[1]}` : ''
    if (name && waiting.length > 0) notes.set(name, waiting.join(' '))
    waiting = []
  }
  return notes
}

/** Where a file stands in the export: its number first, because names repeat. */
export function exportedFileName(id: number, name: string): string {
  // Windows allows fewer characters than the shop does.
  const plain = name.replace(/[<>:"/\\|?*]/g, '_').replace(/[. ]+$/, '')
  return `files/${id} ${plain || 'file'}`
}

export const exportReadme = (shop: string, at: string): string =>
  `${shop}: everything the shop has kept, as of ${at}

csv/     one file a table, for a spreadsheet: comma-separated, UTF-8, the first line names the columns
json/    the same rows as JSON, numbers exactly as kept
files/   the attachments, byte for byte, named by their id in StoredFile
columns.csv   every column: its type, its unit, what it refers to, what it means

Money is in hundredths of the shop's currency unit (Shop.currency; whole units where the currency has no hundredths).
Moments are in UTC. In the CSV files a text that begins with = + - or @ has an apostrophe before it, so that no
spreadsheet takes it for a formula; the JSON files have it as it was typed.

Passwords, PINs, sessions and the tokens of links are left out.
This is a copy to read and take elsewhere. To move or rescue the shop itself, use a backup.
`
