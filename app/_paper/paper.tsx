import { Document, Page, Text, View } from '@react-pdf/renderer'
import type { ComponentProps, ReactNode } from 'react'
import { PAPER_SIZES, type PaperSize } from '@/lib/core/templates/paper-size'
import { cleanText } from './clean-text'
import { PT_PER_MM, style } from './style'

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

type Styled = NonNullable<ComponentProps<typeof View>['style']>

/** Text that came from people: cleaned, so that nothing typed can upset the page. */
export function Words({ children, style: look }: { children: string | number; style?: Styled }) {
  return (
    <Text {...(look ? { style: look } : {})}>{cleanText(String(children))}</Text>
  )
}

/** The file: its title, author and dates, none of them from the clock. */
export function PaperFile({ title, author, issue, children }: { title: string; author: string; issue: PaperIssue; children: ReactNode }) {
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

/** One sheet, or as many as its content runs to, with revision, page n of m, and the mark of a paper that no longer holds. */
export function Sheet({ issue, name, children }: { issue: PaperIssue; name: string; children: ReactNode }) {
  const { widthMm, heightMm } = PAPER_SIZES[issue.paper]
  const printedBy = issue.printedBy ? ` by ${issue.printedBy}` : ''
  return (
    <Page size={[widthMm * PT_PER_MM, heightMm * PT_PER_MM]} style={style.page}>
      {issue.void ? (
        <View fixed style={{ ...style.box, borderWidth: 1.5, padding: 4, marginBottom: 6 }}>
          <Words style={{ fontWeight: 600, fontSize: 11 }}>{`VOID since ${issue.void.since}: ${issue.void.because}. Do not work from this paper.`}</Words>
        </View>
      ) : null}
      {children}
      {issue.void ? (
        <Text fixed style={style.void}>
          VOID
        </Text>
      ) : null}
      <View fixed style={style.footer}>
        <Words style={{ maxWidth: '68%' }}>{`${name} · rev ${issue.revision} · printed ${issue.printedOn}${printedBy} · void if reissued`}</Words>
        <Text render={({ pageNumber, totalPages }) => `page ${pageNumber} of ${totalPages}`} />
      </View>
    </Page>
  )
}

/** A small label above its value, as in the head of a drawing. */
export function Fact({ label, value, widthPct = 25 }: { label: string; value: string; widthPct?: number }) {
  return (
    <View style={{ width: `${widthPct}%`, paddingRight: 6, paddingVertical: 2, overflow: 'hidden' }}>
      <Text style={style.label}>{label}</Text>
      <Words style={style.value}>{value === '' ? '-' : value}</Words>
    </View>
  )
}

export function Facts({ facts, columns = 4 }: { facts: readonly (readonly [label: string, value: string])[]; columns?: number }) {
  return (
    <View style={{ ...style.row, flexWrap: 'wrap', ...style.rule }}>
      {facts.map(([label, value]) => (
        <Fact key={label} label={label} value={value} widthPct={100 / columns} />
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
    <View style={{ ...style.row, borderLeftWidth: 0.6, borderTopWidth: 0.6, borderColor: '#000' }} wrap={false}>
      {labels.map((label, index) => (
        <View
          // Labels may repeat; their places do not change.
          key={`${index}-${label}`}
          style={{
            flex: 1,
            height: heightMm * PT_PER_MM,
            borderRightWidth: 0.6,
            borderBottomWidth: 0.6,
            borderColor: '#000',
            paddingHorizontal: 2.5,
            paddingTop: 1,
            overflow: 'hidden',
          }}
        >
          <Words style={{ fontSize: 6.5, lineHeight: 1.1 }}>{label}</Words>
        </View>
      ))}
    </View>
  )
}
