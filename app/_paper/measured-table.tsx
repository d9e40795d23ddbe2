import { Text, View } from '@react-pdf/renderer'
import { formatNumber } from '@/lib/core/format'
import { Figures, Words } from './paper'
import { style } from './style'

export type PaperVerdict = 'pass' | 'fail' | 'cannotSay' | 'conceded' | 'notMeasured'

/** One thing measured. All its numbers share the unit named in `unit`. */
export interface MeasuredRow {
  readonly characteristicNumber: string
  readonly pieceNumber: string
  readonly where: string
  readonly characteristic: string
  readonly unit: 'deg' | 'mm' | 'in' | 'pct' | 'none'
  readonly nominal?: number
  readonly low?: number
  readonly high?: number
  readonly measured?: number
  /** Where the result is a word: no crack seen, fits the gauge. */
  readonly measuredText?: string
  readonly expandedUncertainty?: number
  readonly gaugeText: string
  readonly verdict: PaperVerdict
}

const UNIT_TEXT = { deg: '°', mm: ' mm', in: ' in', pct: ' %', none: '' } as const
const VERDICT_TEXT: Readonly<Record<PaperVerdict, string>> = {
  pass: 'pass',
  fail: 'FAIL',
  cannotSay: 'cannot say',
  conceded: 'conceded',
  notMeasured: 'not measured',
}

const COLUMNS = [
  ['No.', 0.7],
  ['Piece', 1.5],
  ['Where', 1.2],
  ['What', 1.8],
  ['Required', 2.3],
  ['Measured', 1.3],
  ['U (k = 2)', 1],
  ['Gauge', 1.5],
  ['Verdict', 1.3],
] as const

/** Required, measured and judged, one row each; a verdict is a word in a frame of its own kind, never a colour. */
export function MeasuredTable({ rows }: { rows: readonly MeasuredRow[] }) {
  return (
    <View>
      <View style={{ ...style.row, ...style.heavyRule }} fixed>
        {COLUMNS.map(([head, share]) => (
          <Text key={head} style={{ ...style.headCell, flex: share, paddingRight: 4 }}>
            {head}
          </Text>
        ))}
      </View>
      {rows.map((row, index) => (
        <View
          key={`${index}-${row.characteristicNumber}`}
          style={{ ...style.row, ...style.rule, alignItems: 'center' }}
          wrap={false}
        >
          {cellsOf(row).map((words, place) => (
            <View
              key={COLUMNS[place]?.[0]}
              style={{
                flex: COLUMNS[place]?.[1] ?? 1,
                paddingRight: 4,
                paddingVertical: 1.2,
                overflow: 'hidden',
              }}
            >
              {place >= 4 && place <= 6 ? (
                <Figures style={{ fontSize: 7.6 }}>{words}</Figures>
              ) : (
                <Words style={{ fontSize: 8 }}>{words}</Words>
              )}
            </View>
          ))}
          <View style={{ flex: COLUMNS[8][1] }}>
            <VerdictMark verdict={row.verdict} />
          </View>
        </View>
      ))}
    </View>
  )
}

function cellsOf(row: MeasuredRow): string[] {
  const withUnit = (value: number | undefined) =>
    value === undefined ? '' : `${formatNumber(value)}${UNIT_TEXT[row.unit]}`
  return [
    row.characteristicNumber,
    row.pieceNumber,
    row.where,
    row.characteristic,
    requiredText(row),
    row.measuredText ?? (withUnit(row.measured) || '-'),
    row.expandedUncertainty === undefined ? '' : `±${withUnit(row.expandedUncertainty)}`,
    row.gaugeText,
  ]
}

function requiredText({ low, high, nominal, unit }: MeasuredRow): string {
  const end = UNIT_TEXT[unit]
  if (low !== undefined && high !== undefined) return `${formatNumber(low)} to ${formatNumber(high)}${end}`
  if (high !== undefined) return `at most ${formatNumber(high)}${end}`
  if (low !== undefined) return `at least ${formatNumber(low)}${end}`
  return nominal === undefined ? '' : `${formatNumber(nominal)}${end}`
}

export function VerdictMark({ verdict }: { verdict: PaperVerdict }) {
  const isFail = verdict === 'fail'
  const frame = { pass: 0, notMeasured: 0, fail: 0, cannotSay: 0.8, conceded: 0.8 }[verdict]
  return (
    <View
      style={{
        alignSelf: 'flex-start',
        paddingHorizontal: frame > 0 || isFail ? 3 : 0,
        borderWidth: frame,
        borderStyle: verdict === 'cannotSay' ? 'dashed' : 'solid',
        borderColor: '#000',
        backgroundColor: isFail ? '#000' : '#fff',
      }}
    >
      <Text style={{ fontSize: 8, lineHeight: 1.25, fontWeight: 600, color: isFail ? '#fff' : '#000' }}>
        {VERDICT_TEXT[verdict]}
      </Text>
    </View>
  )
}
