import Link from 'next/link'
import type { ReactNode } from 'react'
import { classNames } from './class-names'
import { DecimalText, decimalPlaces } from './decimal-text'
import { Mark } from './marks'
import { TableRows } from './table-rows'

export interface Column<Row> {
  key: string
  head: string
  /** Text or number in a numeric column is aligned on its decimal point; anything else is shown as it is. */
  cell: (row: Row) => ReactNode
  numeric?: boolean
  /** Shown after the head, lighter. */
  unit?: string
  /** Names the row: a row header, and its title on a phone. */
  title?: boolean
  /** Where a press on the head leads, and how the rows stand now. */
  sort?: { href: string; direction?: 'ascending' | 'descending' }
  foot?: ReactNode
}

/** A table made on the server; on a phone each row is a stack of named values. */
export function DataTable<Row>({
  columns,
  rows,
  rowKey,
  rowHref,
  rowClass,
  caption,
  captionHidden = false,
  empty,
  stacked = true,
}: {
  columns: readonly Column<Row>[]
  rows: readonly Row[]
  rowKey: (row: Row) => string
  rowHref?: (row: Row) => string
  rowClass?: (row: Row) => string | undefined
  caption: string
  captionHidden?: boolean
  empty?: ReactNode
  stacked?: boolean
}) {
  if (rows.length === 0 && empty) return <>{empty}</>
  const values = columns.map((column) => rows.map((row) => column.cell(row)))
  const places = columns.map((column, index) => (column.numeric ? decimalPlaces(values[index] ?? []) : 0))
  const hasFoot = columns.some((column) => column.foot !== undefined)
  const table = (
    <table className={classNames('table', stacked && 'table-stacked')}>
      <caption className={captionHidden ? 'visually-hidden' : undefined}>{caption}</caption>
      <thead>
        <tr>
          {columns.map((column) => (
            <HeadCell key={column.key} column={column} />
          ))}
        </tr>
      </thead>
      <tbody>
        <TableRows
          columns={columns.map(({ key, head, unit, numeric, title }) => ({
            key,
            label: unit ? `${head} (${unit})` : head,
            ...(numeric && { numeric }),
            ...(title && { title }),
          }))}
          rows={rows.map((row, rowIndex) => ({
            key: rowKey(row),
            ...(rowClass && { className: rowClass(row) }),
            ...(rowHref && { href: rowHref(row) }),
            cells: Object.fromEntries(
              columns.map(({ key, numeric }, index) => {
                const value = values[index]?.[rowIndex]
                return [key, numeric ? <DecimalText value={value} places={places[index] ?? 0} /> : value]
              }),
            ),
          }))}
        />
      </tbody>
      {hasFoot && (
        <tfoot>
          <tr>
            {columns.map((column) => (
              <td
                key={column.key}
                className={column.numeric ? 'numeric' : undefined}
                data-label={column.foot === undefined || column.title ? undefined : column.head}
              >
                {column.foot}
              </td>
            ))}
          </tr>
        </tfoot>
      )}
    </table>
  )
  return stacked ? table : <div className="table-wide">{table}</div>
}

function HeadCell<Row>({ column }: { column: Column<Row> }) {
  // A column of buttons has no heading; an empty one would be read out as nothing.
  if (column.head === '') return <td />
  const direction = column.sort?.direction
  const head = (
    <>
      {column.head}
      {column.unit && <span className="unit">{` ${column.unit}`}</span>}
    </>
  )
  return (
    <th scope="col" className={column.numeric ? 'numeric' : undefined} aria-sort={direction}>
      {column.sort ? (
        <Link className="table-sort" href={column.sort.href} scroll={false}>
          {head}
          <Mark
            name={direction === 'ascending' ? 'up' : direction === 'descending' ? 'down' : 'updown'}
            size={12}
          />
        </Link>
      ) : (
        head
      )}
    </th>
  )
}
