import { LinkButton } from './button'
import { Mark } from './marks'

/** Earlier and later pages of a long list, each with its address. */
export function Pager({
  page,
  pageCount,
  hrefFor,
  label = 'Pages',
}: {
  page: number
  pageCount: number
  hrefFor: (page: number) => string
  label?: string
}) {
  if (pageCount <= 1) return null
  return (
    <nav className="pager" aria-label={label}>
      {page > 1 && (
        <LinkButton href={hrefFor(page - 1)} rel="prev">
          <Mark name="left" />
          Back
        </LinkButton>
      )}
      <span className="muted">
        Page {page} of {pageCount}
      </span>
      {page < pageCount && (
        <LinkButton href={hrefFor(page + 1)} rel="next">
          More
          <Mark name="right" />
        </LinkButton>
      )}
    </nav>
  )
}
