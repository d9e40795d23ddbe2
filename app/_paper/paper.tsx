import { Document, Page, Text, View } from '@react-pdf/renderer'
import type { ComponentProps, ReactNode } from 'react'
import { PAPER_SIZES, type PaperSize } from '@/lib/core/templates/paper-size'
import { cleanText } from './clean-text'
import { MARGIN_MM, PT_PER_MM, style } from './style'

/** Width between the margins, for what is drawn across the page. */
export function printedWidthMm(paper: PaperSize): number {
  return PAPER_SIZES[paper].widthMm - 2 * MARGIN_MM
}

/** Which issue of a paper this is. Dates are text as the shop writes them; printedAtIso only dates the file. */
export interface PaperIssue {
  readonly paper: PaperSize
  readonly revision: number
  readonly printedOn: string
  readonly printedAtIso: string
  readonly printedBy?: string
  /** Set where a later revision, or a changed spec, took its place. */
  readonly void?: { readonly because: string; readonly since: string }
}

type Look = Exclude<NonNullable<ComponentProps<typeof View>['style']>, readonly unknown[]>

/** Text that came from people: cleaned, so that nothing typed can upset the page. */
export function Words({ children, style: look }: { children: string | number; style?: Look }) {
  return <Text style={{ fontSize: 9, lineHeight: 1.25, ...look }}>{cleanText(String(children))}</Text>
}

/** Codes and numbers in the face whose letters are all of one width. */
export function Figures({ children, style: look }: { children: string | number; style?: Look }) {
  return (
    <Text style={{ fontSize: 9, lineHeight: 1.25, ...look, ...style.mono }}>
      {cleanText(String(children))}
    </Text>
  )
}

/** The file: its title, author and dates, none of them from the clock. */
export function PaperFile({
  title,
  author,
  issue,
  children,
}: {
  title: string
  author: string
  issue: PaperIssue
  children: ReactNode
}) {
  const printedAt = new Date(issue.printedAtIso)
  return (
    <Document
      title={cleanText(title)}
      author={cleanText(author)}
      creator="Bendwright"
      producer="Bendwright"
      creationDate={printedAt}
      modificationDate={printedAt}
    >
      {children}
    </Document>
  )
}

/** More than any paper has: a layout that never comes to an end would hold up everybody else's requests. */
const mostPages = 2000

function pageText({ pageNumber, totalPages }: { pageNumber: number; totalPages: number }): string {
  if (pageNumber > mostPages) throw new RangeError(`A paper of more than ${mostPages} pages`)
  return `void if reissued · page ${pageNumber} of ${totalPages}`
}

/** One sheet, or as many as its content runs to (`single`: never more than one), with revision, page n of m, and the mark of a paper that no longer holds. */
export function Sheet({
  issue,
  name,
  single = false,
  children,
}: {
  issue: PaperIssue
  name: string
  single?: boolean
  children: ReactNode
}) {
  const { widthMm, heightMm } = PAPER_SIZES[issue.paper]
  const printedBy = issue.printedBy ? ` by ${issue.printedBy}` : ''
  return (
    <Page
      size={[widthMm * PT_PER_MM, heightMm * PT_PER_MM]}
      style={single ? { ...style.page, minHeight: heightMm * PT_PER_MM } : style.page}
      wrap={!single}
    >
      <View fixed style={style.footer}>
        <Words style={{ flex: 1, fontSize: 7.5, paddingRight: 8 }}>
          {`${name} · issue ${issue.revision} · printed ${issue.printedOn}${printedBy}`}
        </Words>
        <Text style={{ fontSize: 7.5, fontWeight: 600 }} render={pageText} />
      </View>
      {issue.void ? (
        <View fixed style={{ ...style.box, borderWidth: 1.5, padding: 4, marginBottom: 6 }}>
          <Words
            style={{ fontWeight: 600, fontSize: 11 }}
          >{`VOID since ${issue.void.since}: ${issue.void.because}. Do not work from this paper.`}</Words>
        </View>
      ) : null}
      {children}
      {issue.void ? (
        <Text fixed style={style.void}>
          VOID
        </Text>
      ) : null}
    </Page>
  )
}

/**
 * A small label, the value under it and perhaps a few words under that, as one text: every box costs the renderer time.
 * Each part needs its own line height: the renderer hands the outer text's down in points, whatever the letters' size.
 */
export function Labelled({
  label,
  value,
  below = '',
  look = {},
  valueLook = style.value,
}: {
  label: string
  value: string
  below?: string
  look?: Look
  valueLook?: Look
}) {
  return (
    <Text style={look} wrap={false}>
      {label === '' ? null : <Text style={style.label}>{`${cleanText(label)}\n`}</Text>}
      <Text style={valueLook}>{cleanText(value)}</Text>
      {below === '' ? null : <Text style={style.small}>{`\n${cleanText(below)}`}</Text>}
    </Text>
  )
}

export function Facts({
  facts,
  columns = 4,
}: {
  facts: readonly (readonly [label: string, value: string])[]
  columns?: number
}) {
  return (
    <View style={{ ...style.row, flexWrap: 'wrap', ...style.rule }}>
      {facts.map(([label, value]) => (
        <Labelled
          key={label}
          label={label}
          value={value === '' ? '-' : value}
          look={{ width: `${100 / columns}%`, paddingRight: 6, paddingVertical: 2 }}
        />
      ))}
    </View>
  )
}

export function Heading({ children }: { children: string }) {
  return (
    <Text style={style.heading} minPresenceAhead={60}>
      {children}
    </Text>
  )
}

/** Empty boxes to write in, each with its label in the corner. */
export function WriteBoxes({ labels, heightMm = 11 }: { labels: readonly string[]; heightMm?: number }) {
  return (
    <View style={{ ...style.row, ...style.box, marginTop: -0.6 }} wrap={false}>
      {labels.map((label, index) => (
        <Text
          // Labels may repeat; their places do not change.
          key={`${index}-${label}`}
          style={{
            flex: 1,
            height: heightMm * PT_PER_MM,
            borderLeftWidth: index === 0 ? 0 : 0.6,
            borderColor: '#000',
            paddingHorizontal: 2.5,
            paddingTop: 1,
            fontSize: 6.5,
            lineHeight: 1.2,
          }}
        >
          {cleanText(label)}
        </Text>
      ))}
    </View>
  )
}
