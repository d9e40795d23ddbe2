import { type LandedCost, landedCost, type OutsideQuote, type ReceivingRates } from '@/lib/core/cost/landed'
import { fixed, type ThreePoint } from '@/lib/core/cost/spread'
import { formatAngle, formatLength } from '@/lib/core/format'
import type { LengthUnit } from '@/lib/core/units'
import { cutWords, type RevisionFacts, tubeText } from '@/lib/records/part/rules'

export type AskStatus = 'sent' | 'quoted' | 'declined' | 'silent'

/** How an ask stands on a day; one that waits past its day to chase is to chase. */
export type AskStanding = 'waiting' | 'chase' | 'answered' | 'declined' | 'silent'

export const askStandings: readonly AskStanding[] = ['chase', 'waiting', 'answered', 'declined', 'silent']

export const standingWords: Readonly<Record<AskStanding, string>> = {
  waiting: 'waiting',
  chase: 'to chase',
  answered: 'answered',
  declined: 'declined',
  silent: 'silent',
}

export function askStanding(ask: { status: AskStatus; chaseOn: Date }, today: Date): AskStanding {
  if (ask.status === 'sent') return ask.chaseOn <= today ? 'chase' : 'waiting'
  return ask.status === 'quoted' ? 'answered' : ask.status
}

export function chasedWords(chasedCount: number): string {
  if (chasedCount === 0) return 'never chased'
  return `chased ${chasedCount === 1 ? 'once' : `${chasedCount} times`}`
}

/** What the request is called on paper and in talk. */
export function askNumber(id: number): string {
  return `A-${String(id).padStart(4, '0')}`
}

/** A price holds through its last day. */
export function isExpired(ask: { validUntil: Date | null }, today: Date): boolean {
  return ask.validUntil !== null && ask.validUntil < today
}

export type AskAnswer = {
  prices: readonly { quantity: number; unitCents: number }[]
  toolingCents: number
  setUpCents: number
  minimumOrderCents: number
  freightCents: number
  /** Of what the shop gives them, for each piece ordered. */
  suppliedCentsPerPiece: number
  leadTimeDays: number | null
  expectedRejectFraction: number
  replacesRejects: boolean
  /** Working days that this bender has run past promises, where it has. */
  lateDays?: ThreePoint | null
}

/** How late a bender has run past promises: '3 working days late as a rule, 6 at most'. */
export function lateWords({ likely, high }: ThreePoint): string {
  const days = (count: number) => `${Number(count.toFixed(1))} working ${count === 1 ? 'day' : 'days'}`
  if (likely === high) return `${days(high)} late as a rule`
  return likely === 0
    ? `late at times, up to ${days(high)}`
    : `${days(likely)} late as a rule, ${days(high)} at most`
}

/** A line of a list of asks. */
export type AskRow = {
  id: number
  status: AskStatus
  quantities: readonly number[]
  sentOn: Date
  chaseOn: Date
  chasedCount: number
  declineReason: string
  validUntil: Date | null
  source: { id: number; name: string }
  revision: { letter: string; part: { id: number; number: string; name: string } }
  prices: AskAnswer['prices']
}

/** An ask whole, with the order that may have followed. */
export type AskFacts = AskAnswer &
  Omit<AskRow, 'revision'> & {
    version: number
    repliedOn: Date | null
    offeredRadiusMm: number | null
    conditionsText: string
    orderedOn: Date | null
    orderedQuantity: number | null
    promisedOn: Date | null
    deliveredOn: Date | null
    rejectedQuantity: number | null
  }

/** An answer as the cost model takes it; null while no price stands in it. */
export function outsideQuoteOf(ask: AskAnswer): OutsideQuote | null {
  if (ask.prices.length === 0) return null
  return {
    breaks: ask.prices.map(({ quantity, unitCents }) => ({
      fromPieceCount: quantity,
      unitPriceCents: unitCents,
    })),
    minimumOrderCents: ask.minimumOrderCents,
    toolingCents: ask.toolingCents,
    setUpCents: ask.setUpCents,
    freightCents: ask.freightCents,
    suppliedCentsPerPiece: ask.suppliedCentsPerPiece,
    leadDays: fixed(ask.leadTimeDays ?? 0),
    rejectFraction: ask.expectedRejectFraction,
    replacesRejects: ask.replacesRejects,
    ...(ask.lateDays && { lateDays: ask.lateDays }),
  }
}

/** What a quantity of good pieces costs by the time it stands in the shop; null where nothing was quoted. */
export function landedAt(ask: AskAnswer, goodPieces: number, receiving: ReceivingRates): LandedCost | null {
  const quote = outsideQuoteOf(ask)
  return quote ? landedCost(quote, goodPieces, receiving) : null
}

/** Whether the least order in money, and not the pieces, sets the price. */
export function minimumOrderBites(ask: AskAnswer, landed: LandedCost): boolean {
  return ask.minimumOrderCents > landed.unitPriceCents * landed.orderedPieceCount
}

/** Radii drawn that the bender would make otherwise, each once. */
export function changedRadiiMm(
  offeredRadiusMm: number | null,
  bends: readonly { centrelineRadiusMm: number }[],
): number[] {
  if (offeredRadiusMm === null) return []
  const drawn = new Set(bends.map(({ centrelineRadiusMm }) => centrelineRadiusMm))
  // Typed in inches and drawn in millimetres, one radius may differ in what rounding leaves.
  return [...drawn].filter((radiusMm) => Math.abs(radiusMm - offeredRadiusMm) > 0.05)
}

/** The smallest drawn radius over the tube's size in the bend: what a bender's smallest is held against. */
export function tightestRadiusRatio(revision: {
  heightMm: number
  bends: readonly { centrelineRadiusMm: number }[]
}): number | null {
  const radii = revision.bends.map(({ centrelineRadiusMm }) => centrelineRadiusMm)
  return radii.length === 0 ? null : Math.min(...radii) / revision.heightMm
}

/** What of a part lies outside what a bender is known to do; empty: nothing known against it. */
export function beyondSource(
  source: { minimumRadiusRatio: number | null; maximumSizeMm: number | null },
  revision: { widthMm: number; heightMm: number; bends: readonly { centrelineRadiusMm: number }[] },
): string[] {
  const ratio = tightestRadiusRatio(revision)
  const tight = ratio !== null && source.minimumRadiusRatio !== null && ratio < source.minimumRadiusRatio
  const size = Math.max(revision.widthMm, revision.heightMm)
  return [
    ...(tight ? [`tighter than the ${source.minimumRadiusRatio} times the tube they bend to`] : []),
    ...(source.maximumSizeMm !== null && size > source.maximumSizeMm ? ['larger than they take'] : []),
  ]
}

/** What goes out: the part's number and revision and what is needed; nothing of the customer, no price of ours. */
export type AskPack = {
  askId: number
  sentOn: string
  replyBy: string
  quantities: readonly number[]
  notesText: string
  partNumber: string
  letter: string
  partName: string
  materialText: string
  revision: RevisionFacts
}

/** The pack with the letterhead it goes out on and whom it goes to. */
export type AskSending = {
  ask: { id: number; sentOn: Date; chaseOn: Date }
  source: { name: string; contactText: string; email: string; phone: string }
  shop: {
    name: string
    addressText: string
    contactText: string
    lengthUnit: LengthUnit
    paper: 'letter' | 'a4'
  }
  pack: AskPack
  endTemperText: string
}

export function toleranceWords(revision: RevisionFacts, unit: LengthUnit): string[] {
  const section = revision.sectionToleranceFraction
  return [
    `Angles ±${formatAngle(revision.angleToleranceDeg)}.`,
    `Lengths ±${formatLength(revision.lengthToleranceMm, unit)}.`,
    ...(revision.radiusToleranceMm === null
      ? []
      : [`Centreline radii ±${formatLength(revision.radiusToleranceMm, unit)}.`]),
    ...(section === null
      ? []
      : [`Section in a bend within ±${Number((section * 100).toFixed(2))} % of its size.`]),
    `What is not named: ${revision.generalTolerance}.`,
  ]
}

export function requirementWords(pack: AskPack, unit: LengthUnit): string[] {
  const { revision } = pack
  return [
    `Start cut ${cutWords(revision.startCut, unit)}, end cut ${cutWords(revision.endCut, unit)}.`,
    'Mill certificate with the heat number.',
    'No wrinkles, cracks or flats you can feel.',
    'If you would bend in another temper or to another radius, say so in your answer.',
    ...(revision.weldedAfter ? ['The part is welded later: no lubricant left on or in it.'] : []),
    ...pack.notesText
      .split('\n')
      .map((line) => line.trim())
      .filter((line) => line !== ''),
  ]
}

/** The request as a message to paste or mail. */
export function requestText(pack: AskPack, unit: LengthUnit, shopName: string): string {
  const { revision } = pack
  const length = (mm: number) => formatLength(mm, unit)
  return [
    `Request for price ${askNumber(pack.askId)}: ${pack.partNumber} rev ${pack.letter}, ${pack.partName}`,
    '',
    `Tube: ${tubeText(revision, unit)}, ${pack.materialText}`,
    ...revision.bends.map(
      (bend, index) =>
        `Bend ${index + 1}: straight before ${length(bend.straightBeforeMm)}, ${formatAngle(bend.angleDeg)} on centreline radius ${length(bend.centrelineRadiusMm)}, rotated ${formatAngle(bend.rotationDeg)}`,
    ),
    `Last straight: ${length(revision.straightAfterMm)}`,
    ...toleranceWords(revision, unit),
    ...requirementWords(pack, unit),
    '',
    `Quantities: ${pack.quantities.join(' / ')}. Please price each, with tooling, set-up, minimum order, freight, lead time in working days and how long the price holds.`,
    `Please answer by ${pack.replyBy}. A no is an answer too: then we stop asking.`,
    '',
    shopName,
  ].join('\n')
}
