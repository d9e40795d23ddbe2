import { decisionRuleText } from '@/lib/core/inspection/decision'
import { bendLookWords, meltsOut, penetrantWords, shopRule } from '@/lib/records/bend-record/rules'
import type { JobPlan } from '@/lib/records/job/rules'
import { owedPieces, type ReleasedBend, type ReleasePapers, releasedBends } from '@/lib/records/release/rules'
import type { InspectionData } from './inspection-document'
import { materialName, type PaperShop, paperIssue, pieceName } from './job-traveller'
import type { Logo } from './letter-head'
import { letterheadOf, linesOf } from './letterhead-of'
import type { MeasuredRow, PaperVerdict } from './measured-table'
import type { PackingData } from './packing-document'

/** Papers of a release are dated by it: printed again they are the same. */
function issueOf(release: ReleasePapers, shop: PaperShop) {
  return paperIssue({ shop, origin: '', by: release.by.name, atIso: release.at.toISOString() }, 1)
}

const number = (value: number, decimals: number): number => Number(value.toFixed(decimals))

export function paperVerdict(state: ReleasedBend['state']): PaperVerdict {
  if (state === 'pass' || state === 'fail' || state === 'conceded' || state === 'cannotSay') return state
  return 'notMeasured'
}

/** What was measured of each bend, the rows of the record. */
function rowsOf(bends: readonly ReleasedBend[], plan: JobPlan, jobNumber: string): MeasuredRow[] {
  const { tolerances } = plan
  return bends.flatMap((one, index): MeasuredRow[] => {
    const wanted = plan.input?.bends[one.bend - 1]
    const radius = wanted?.centrelineRadiusMm
    const common = {
      pieceNumber: pieceName(jobNumber, one.piece),
      where: `bend ${one.bend}`,
      gaugeText: one.last.gaugeText,
    }
    const angle: MeasuredRow = {
      ...common,
      characteristicNumber: String(index + 1),
      characteristic: 'angle',
      unit: 'deg',
      ...(wanted && {
        low: wanted.angleDeg - tolerances.angleDeg,
        high: wanted.angleDeg + tolerances.angleDeg,
      }),
      ...(one.last.angleFinalDeg !== null && { measured: number(one.last.angleFinalDeg, 2) }),
      expandedUncertainty: one.last.gaugeUncertaintyDeg,
      verdict: paperVerdict(one.state),
    }
    if (tolerances.radiusMm === null || radius === undefined || one.last.radiusMm === null) return [angle]
    const [low, high] = [radius - tolerances.radiusMm, radius + tolerances.radiusMm]
    const fits = one.last.radiusMm >= low && one.last.radiusMm <= high
    return [
      angle,
      {
        ...common,
        characteristicNumber: `${index + 1}a`,
        characteristic: 'centreline radius',
        unit: 'mm',
        low,
        high,
        measured: number(one.last.radiusMm, 1),
        verdict: fits ? 'pass' : one.state === 'conceded' ? 'conceded' : 'fail',
      },
    ]
  })
}

/** What was looked at besides the angles, and what was not: told as it was found in the records. */
export function checkedText(
  bends: readonly ReleasedBend[],
  plan: JobPlan,
): { was: string[]; wasNot: string[] } {
  const looked = bends.filter(({ look }) => look !== null)
  const dyed = bends.filter(({ dyePenetrant }) => dyePenetrant !== 'notDone')
  const looks = [...new Set(looked.flatMap(({ look }) => (look ? [bendLookWords[look]] : [])))]
  const angleWhen = meltsOut(plan)
    ? 'after melt-out, cold and empty'
    : 'after its last release from the press'
  const hasRadius = bends.some(({ last }) => last.radiusMm !== null)
  return {
    was: [
      `The angle of each bend ${angleWhen}, by the gauge named beside it.`,
      ...(looked.length > 0
        ? [`The look of ${looked.length} of ${bends.length} bends by eye: ${looks.join(', ')}.`]
        : []),
      ...(dyed.length > 0
        ? [
            `The outer face of ${dyed.length} of ${bends.length} bends with dye penetrant: ${[...new Set(dyed.map(({ dyePenetrant }) => penetrantWords[dyePenetrant]))].join(', ')}.`,
          ]
        : []),
    ],
    wasNot: [
      ...(hasRadius ? [] : ['The radius of the bends.']),
      ...(dyed.length < bends.length
        ? [`Cracks that the eye does not see, on ${bends.length - dyed.length} of ${bends.length} bends.`]
        : []),
      'Strength, hardness, residual stress and the wall inside the bends, unless a row above says so.',
    ],
  }
}

const released = (release: ReleasePapers) => release.snapshot.pieces.map((piece) => piece.number)

function heatsOf(release: ReleasePapers): string[] {
  return [
    ...new Set(
      release.snapshot.pieces.flatMap(({ stockPiece }) => (stockPiece ? [stockPiece.lot.heatNumber] : [])),
    ),
  ].filter((heat) => heat !== '')
}

export function inspectionOf(release: ReleasePapers, shop: PaperShop): InspectionData {
  const { job } = release
  const issue = issueOf(release, shop)
  const bends = releasedBends(release)
  const { was, wasNot } = checkedText(bends, job.plan)
  const by = [...new Set(bends.map(({ last }) => last.by.name))]
  const lastAt = bends
    .map(({ last }) => last.at)
    .sort()
    .at(-1)
  return {
    ...issue,
    shopName: shop.name,
    recordNumber: release.number,
    jobNumber: job.number,
    customerName: job.customer.name,
    ...(job.quoteLine && { orderNumber: `quote ${job.quoteLine.quote.number}` }),
    partNumber: job.revision.part.number,
    partRevision: job.revision.letter,
    partTitle: job.revision.part.name,
    ...(job.revision.part.customerRef && { drawingNumber: job.revision.part.customerRef }),
    materialText: materialName(job.revision.materialId),
    heatNumbers: heatsOf(release),
    pieceNumbers: released(release).map((piece) => pieceName(job.number, piece)),
    decisionRule: decisionRuleText(shopRule),
    rows: rowsOf(bends, job.plan, job.number),
    concessions: release.pieces.flatMap((piece) =>
      piece.faults.map((fault) => ({
        pieceNumber: pieceName(job.number, piece.number),
        what: `${fault.number} ${fault.description}`,
        why: fault.whyText,
        decidedBy: fault.decidedBy?.name ?? 'nobody named',
        decidedOn: fault.decidedAt
          ? paperIssue({ shop, origin: '', by: '', atIso: fault.decidedAt.toISOString() }, 1).printedOn
          : '',
      })),
    ),
    whatWasChecked: was,
    whatWasNotChecked: wasNot,
    inspectedBy: by.join(', ') || 'nobody',
    inspectedOn: lastAt ? paperIssue({ shop, origin: '', by: '', atIso: lastAt }, 1).printedOn : '',
    releasedBy: release.by.name,
    releasedOn: issue.printedOn,
  }
}

export function packingOf(release: ReleasePapers, shop: PaperShop, logo: Logo | null = null): PackingData {
  const { job } = release
  const issue = issueOf(release, shop)
  const { part } = job.revision
  const note = linesOf(release.statementText).slice(1).join(' ')
  return {
    ...issue,
    letterhead: letterheadOf(shop, logo),
    shipTo: { name: job.customer.name, addressLines: linesOf(job.customer.addressText) },
    packingNumber: release.number.replace(/^R/, 'PL'),
    jobNumber: job.number,
    ...(job.quoteLine && { orderNumber: `quote ${job.quoteLine.quote.number}` }),
    shippedOn: issue.printedOn,
    carrierText: '',
    lines: [
      {
        partNumber: part.customerRef || part.number,
        partRevision: job.revision.letter,
        description: part.name,
        orderedPieces: job.quantity,
        shippedPieces: release.snapshot.pieces.length,
        owedPieces: owedPieces(release),
        pieceNumbers: released(release).map(String),
        heatNumbers: heatsOf(release),
      },
    ],
    packages: [],
    enclosed: [`Inspection record ${release.number}`],
    ...(note && { remarks: note }),
  }
}
