import { Page, View } from '@react-pdf/renderer'
import { PAPER_SIZES } from '@/lib/core/templates/paper-size'
import { SANS } from './fonts'
import { Figures, PaperFile, type PaperIssue, Words } from './paper'
import { ScanCode } from './qr'
import { PT_PER_MM } from './style'

export interface LabelData extends PaperIssue {
  readonly shopName: string
  /** A roll prints one label a page; a sheet prints as many as fit Letter or A4, with cut lines. */
  readonly stock: { readonly kind: 'roll' | 'sheet'; readonly widthMm: number; readonly heightMm: number }
  readonly labels: readonly {
    readonly headline: string
    readonly lines: readonly string[]
    readonly scanUrl: string
  }[]
}

const SHEET_MARGIN_MM = 10

/** Small labels for pieces, lots and packages, each with its code to scan. */
export function LabelDocument({ data }: { data: LabelData }) {
  const { widthMm, heightMm, kind } = data.stock
  const sheet = PAPER_SIZES[data.paper]
  if (
    !(
      widthMm >= 40 &&
      heightMm >= 20 &&
      widthMm <= sheet.widthMm - 2 * SHEET_MARGIN_MM &&
      heightMm <= sheet.heightMm - 2 * SHEET_MARGIN_MM
    )
  )
    throw new RangeError(
      `a label of ${widthMm} by ${heightMm} mm holds no code to scan or does not fit the sheet: at least 40 by 20 mm`,
    )
  const perRow = kind === 'roll' ? 1 : Math.floor((sheet.widthMm - 2 * SHEET_MARGIN_MM) / widthMm)
  const perSheet =
    kind === 'roll' ? 1 : perRow * Math.floor((sheet.heightMm - 2 * SHEET_MARGIN_MM) / heightMm)
  const page = kind === 'roll' ? data.stock : sheet
  const marginMm = kind === 'roll' ? 0 : SHEET_MARGIN_MM
  const pages = Array.from({ length: Math.ceil(data.labels.length / perSheet) }, (_, index) =>
    data.labels.slice(index * perSheet, (index + 1) * perSheet),
  )
  return (
    <PaperFile title={`Labels, ${data.labels[0]?.headline ?? 'none'}`} author={data.shopName} issue={data}>
      {pages.map((labels, pageIndex) => (
        <Page
          key={pageIndex}
          size={[page.widthMm * PT_PER_MM, page.heightMm * PT_PER_MM]}
          style={{ fontFamily: SANS }}
        >
          {labels.map((label, index) => (
            <View
              key={`${index}-${label.headline}`}
              style={{
                position: 'absolute',
                left: (marginMm + (index % perRow) * widthMm) * PT_PER_MM,
                top: (marginMm + Math.floor(index / perRow) * heightMm) * PT_PER_MM,
                width: widthMm * PT_PER_MM,
                height: heightMm * PT_PER_MM,
                borderWidth: kind === 'sheet' ? 0.3 : 0,
                borderColor: '#000',
                flexDirection: 'row',
                overflow: 'hidden',
              }}
            >
              <ScanCode text={label.scanUrl} sizeMm={Math.min(heightMm - 2, widthMm * 0.42)} />
              <View
                style={{
                  flex: 1,
                  paddingTop: 2.5 * PT_PER_MM,
                  paddingRight: 2 * PT_PER_MM,
                  overflow: 'hidden',
                }}
              >
                <Figures style={{ fontSize: 12, fontWeight: 600 }}>{label.headline}</Figures>
                {label.lines.map((line, lineIndex) => (
                  <Words key={`${lineIndex}-${line}`} style={{ fontSize: 7.5 }}>
                    {line}
                  </Words>
                ))}
                <Words
                  style={{ fontSize: 6 }}
                >{`${data.shopName} · issue ${data.revision}${data.void ? ' · VOID' : ''}`}</Words>
              </View>
            </View>
          ))}
        </Page>
      ))}
    </PaperFile>
  )
}
