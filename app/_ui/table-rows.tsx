'use client'

import Link from 'next/link'
import type { ReactNode } from 'react'

export interface CellsOf {
  key: string
  /** Names the value where the row is a stack. */
  label: string
  numeric?: true
  title?: true
}

export interface RowCells {
  key: string
  className?: string
  /** Where the row's title leads. */
  href?: string
  /** By the column's key: nodes in a bare list would each need a key of their own. */
  cells: Readonly<Record<string, ReactNode>>
}

/**
 * The rows of a table. A part of the browser's, so that the server sends what stands in the cells and not each row's
 * markup a second time for the script.
 */
export function TableRows({ columns, rows }: { columns: readonly CellsOf[]; rows: readonly RowCells[] }) {
  return rows.map(({ key, className, href, cells }) => (
    <tr key={key} className={className}>
      {columns.map((column) =>
        column.title ? (
          <th key={column.key} scope="row" className="table-title" data-label={column.label}>
            {href ? (
              <Link className="table-row-link" href={href}>
                {cells[column.key]}
              </Link>
            ) : (
              cells[column.key]
            )}
          </th>
        ) : (
          <td key={column.key} className={column.numeric && 'numeric'} data-label={column.label}>
            {cells[column.key]}
          </td>
        ),
      )}
    </tr>
  ))
}
