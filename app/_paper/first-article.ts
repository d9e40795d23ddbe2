import { decisionRuleText, judge } from '@/lib/core/inspection/decision'
import { inchFromMm, type LengthUnit } from '@/lib/core/units'
import {
  type BendState,
  bendLookWords,
  bendState,
  bendTolerances,
  penetrantWords,
  shopRule,
} from '@/lib/records/bend-record/rules'
import { alloyInPot } from '@/lib/records/filler-alloy/rules'
import { drawnPart, tubeText } from '@/lib/records/part/rules'
import type { FirstArticlePiece, JobPapers } from '@/lib/records/traveller/rules'
import type { FirstArticleData } from './first-article-document'
import { materialName, type Printing, paperIssue, pieceName } from './job-traveller'
import type { MeasuredRow, PaperVerdict } from './measured-table'
import { printedWidthMm } from './paper'
import { partLinework } from './part-linework'
import { paperVerdict } from './release-papers'

type Try = FirstArticlePiece['bendRecords'][number]

const sizes = [
  ['radiusMm', 'radiusMm', 'centreline radius'],
  ['widthInsideMm', 'widthInnerMm', 'width, inner face'],
  ['widthMiddleMm', 'widthMiddleMm', 'width, middle'],
  ['widthOutsideMm', 'widthOuterMm', 'width, outer face'],
  ['heightMm', null, 'height'],
  ['wallOutsideMm', null, 'wall, outside'],
  ['wallInsideMm', null, 'wall, inside'],
] as const

/** The first measured piece of a job, every characteristic that was asked for or measured. */
export function firstArticleOf(
  job: JobPapers,
  piece: FirstArticlePiece,
  printing: Printing,
): FirstArticleData {
  const { revision, plan } = job
  const { shop } = printing
  const issue = paperIssue(printing, job.travellerIssue)
  const name = pieceName(job.number, piece.number)
  const rows = revision.bends.flatMap((_, index) => bendRows(job, piece, index + 1, name, shop.lengthUnit))
  const lot = job.pieces.find(({ number }) => number === piece.number)?.stockPiece?.lot
  const filler = plan.setUp?.filler
  const verdicts = rows.map(({ verdict }) => verdict)
  return {
    ...issue,
    shopName: shop.name,
    reportNumber: `${job.number} first article`,
    jobNumber: job.number,
    customerName: job.customer.name,
    partNumber: revision.part.number,
    partRevision: revision.letter,
    partTitle: revision.part.name,
    ...(revision.part.customerRef && { drawingNumber: revision.part.customerRef }),
    pieceNumber: name,
    reason: 'First piece of the job',
    drawings: [
      partLinework(drawnPart(revision), {
        widthMm: printedWidthMm(shop.paper) - 8,
        heightMm: 40,
        lengthUnit: shop.lengthUnit,
      }),
    ],
    accountability: [
      {
        what: 'Tube',
        specification: `${materialName(revision.materialId)}, ${tubeText(revision, shop.lengthUnit)}`,
        lotNumber: lot ? `${lot.number}, heat ${lot.heatNumber || 'not noted'}` : 'not noted',
        proof: lot?.certificateFile?.name ?? 'no certificate on file',
      },
      ...(filler && plan.setUp?.support !== 'hollow'
        ? [
            {
              what: 'Filler, melted out',
              specification: alloyInPot(filler)?.name ?? filler.fillerId,
              lotNumber: [filler.shopNumber, filler.lotText].filter(Boolean).join(', '),
              proof: 'pot ledger',
            },
          ]
        : []),
    ],
    rows,
    decisionRule: decisionRuleText(shopRule),
    verdict: verdicts.includes('fail')
      ? 'fail'
      : verdicts.some((one) => one === 'cannotSay' || one === 'notMeasured')
        ? 'cannotSay'
        : 'pass',
    openNonconformances: piece.openFaults.map(({ number, description }) => `${number} ${description}`),
    preparedBy: printing.by,
    preparedOn: issue.printedOn,
  }
}

function bendRows(
  job: JobPapers,
  piece: FirstArticlePiece,
  position: number,
  pieceNumber: string,
  unit: LengthUnit,
): MeasuredRow[] {
  const { revision, plan } = job
  const wanted = revision.bends[position - 1]
  if (!wanted) return []
  const last = piece.bendRecords.filter(({ bendPosition }) => bendPosition === position).at(-1)
  const state = bendState(piece.bendRecords, position)
  const { limits } = bendTolerances(plan, {
    angleDeg: wanted.angleDeg,
    radiusMm: wanted.centrelineRadiusMm,
    widthMm: revision.widthMm,
    heightMm: revision.heightMm,
    shape: revision.shape,
  })
  const common = { pieceNumber, where: `bend ${position}`, gaugeText: last?.gaugeText ?? '' }
  const angle: MeasuredRow = {
    ...common,
    characteristicNumber: `${position}.1`,
    characteristic: 'angle',
    unit: 'deg',
    low: wanted.angleDeg - revision.angleToleranceDeg,
    high: wanted.angleDeg + revision.angleToleranceDeg,
    ...(last && last.angleFinalDeg !== null && { measured: Number(last.angleFinalDeg.toFixed(2)) }),
    ...(last && { expandedUncertainty: last.gaugeUncertaintyDeg }),
    verdict:
      last && last.angleFinalDeg !== null
        ? angleVerdict(last, wanted.angleDeg, revision, state)
        : 'notMeasured',
  }
  const lengths = sizes.flatMap(([key, limitKey, characteristic], index): MeasuredRow[] => {
    const measuredMm = last?.[key] ?? null
    const limit = limitKey === null ? undefined : limits[limitKey]
    if (measuredMm === null && !limit) return []
    return [
      {
        ...common,
        characteristicNumber: `${position}.${index + 2}`,
        characteristic,
        ...inUnit(unit, measuredMm, limit),
        verdict: sizeVerdict(measuredMm, limit, state),
      },
    ]
  })
  return [angle, ...lengths, ...wordRows(last, position, common, plan.tolerances.penetrant)]
}

type Limit = { lower?: number; upper?: number }

function angleVerdict(
  last: Try,
  wantedDeg: number,
  { angleToleranceDeg }: { angleToleranceDeg: number },
  state: BendState,
): PaperVerdict {
  if (state === 'conceded') return 'conceded'
  return judge({
    value: last.angleFinalDeg ?? Number.NaN,
    lower: wantedDeg - angleToleranceDeg,
    upper: wantedDeg + angleToleranceDeg,
    expandedUncertainty: last.gaugeUncertaintyDeg,
    rule: shopRule,
  })
}

function sizeVerdict(measuredMm: number | null, limit: Limit | undefined, state: BendState): PaperVerdict {
  if (measuredMm === null) return 'notMeasured'
  if (!limit) return 'pass'
  const verdict = judge({ value: measuredMm, ...limit, expandedUncertainty: 0, rule: shopRule })
  return verdict === 'fail' && state === 'conceded' ? 'conceded' : verdict
}

function inUnit(unit: LengthUnit, measuredMm: number | null, limit: Limit | undefined) {
  const show = (mm: number) => (unit === 'in' ? Number(inchFromMm(mm).toFixed(3)) : Number(mm.toFixed(2)))
  return {
    unit,
    ...(limit?.lower !== undefined && { low: show(limit.lower) }),
    ...(limit?.upper !== undefined && { high: show(limit.upper) }),
    ...(measuredMm !== null && { measured: show(measuredMm) }),
  }
}

function wordRows(
  last: Try | undefined,
  position: number,
  common: { pieceNumber: string; where: string; gaugeText: string },
  penetrantWanted: boolean,
): MeasuredRow[] {
  const words = { ...common, gaugeText: '', unit: 'none' as const }
  const look: MeasuredRow = {
    ...words,
    characteristicNumber: `${position}.9`,
    characteristic: 'look',
    measuredText: last?.look ? bendLookWords[last.look] : '-',
    verdict: !last?.look ? 'notMeasured' : last.look === 'clean' || last.look === 'marked' ? 'pass' : 'fail',
  }
  const dye = last?.dyePenetrant ?? 'notDone'
  if (!penetrantWanted && dye === 'notDone') return [look]
  return [
    look,
    {
      ...words,
      characteristicNumber: `${position}.10`,
      characteristic: 'dye penetrant',
      measuredText: penetrantWords[dye],
      verdict: paperVerdict(dye === 'clear' ? 'pass' : dye === 'indication' ? 'fail' : 'none'),
    },
  ]
}
