import { orderPrice, type PriceBreak } from '@/lib/core/cost/breaks'
import type { CostItem, CostModel } from '@/lib/core/cost/cost-model'
import { wholeCents } from '@/lib/core/cost/money'
import type { ShopRates } from '@/lib/core/cost/shop-rates'
import { fixed, scaled, type ThreePoint } from '@/lib/core/cost/spread'

/** An outside source's answer: what it charges and what comes with it. */
export interface OutsideQuote {
  readonly breaks: readonly PriceBreak[]
  /** Least order in money, whatever the count; absent: none. */
  readonly minimumOrderCents?: number
  /** Least order in pieces; absent: that of the first break. */
  readonly minimumPieceCount?: number
  readonly toolingCents: number
  readonly setUpCents: number
  readonly freightCents: number
  /** What the shop gives them to work on, for each piece ordered; absent: they bring it all. */
  readonly suppliedCentsPerPiece?: number
  /** Working days from order to delivery. */
  readonly leadDays: ThreePoint
  /** Share of pieces from this source that the shop turns away. */
  readonly rejectFraction: number
  /** Whether it makes good what it got wrong at its own cost; otherwise the shop orders more. */
  readonly replacesRejects: boolean
  /** Days its deliveries have run past its promise, where known; absent: none. */
  readonly lateDays?: ThreePoint
}

/** The shop's own work around an outside order. */
export interface ReceivingRates {
  readonly orderMinutes: ThreePoint
  readonly perDeliveryMinutes: ThreePoint
  readonly perPieceMinutes: ThreePoint
  readonly officeCentsPerH: number
  readonly inspectionCentsPerH: number
  readonly overheadFactor: number
  readonly contingencyFraction: number
  readonly hoursPerDay: number
}

/** The receiving work of a shop from its rates; the allowance is put on once, here. */
export function receivingRatesOf(rates: ShopRates): ReceivingRates {
  const allowance = 1 + rates.allowanceFraction
  return {
    orderMinutes: scaled(rates.times.orderOutsideMinutes, allowance),
    perDeliveryMinutes: scaled(rates.times.receiveSetUpMinutes, allowance),
    perPieceMinutes: scaled(rates.times.receivePerPieceMinutes, allowance),
    officeCentsPerH: rates.labourCentsPerH.office,
    inspectionCentsPerH: rates.labourCentsPerH.inspection,
    overheadFactor: rates.overheadFactor,
    contingencyFraction: rates.contingencyFraction,
    hoursPerDay: rates.hoursPerDay,
  }
}

export interface LandedCost {
  readonly goodPieceCount: number
  readonly orderedPieceCount: number
  readonly unitPriceCents: number
  readonly lines: readonly {
    readonly key: string
    readonly label: string
    readonly cents: number
    readonly from: string
  }[]
  readonly totalCents: number
  readonly perGoodPieceCents: number
  /** A larger order that costs less than this one. */
  readonly cheaperLargerOrder: { readonly pieceCount: number; readonly totalCents: number } | null
  /** The same as data for comparing and sampling. */
  readonly model: CostModel
}

/**
 * What an outside quote costs by the time good pieces stand in the shop.
 *   ordered = max(least order, ceil(Q / (1 - r))) where rejects are not replaced, max(least order, Q) where they are
 *   total = max(ordered * unit, least money) + ordered * supplied + tooling + set-up + freight + the shop's own ordering and receiving work
 * Source: landed cost as in purchasing texts: unit price, tooling, freight, ordering, receiving inspection, quality. Valid: Q >= 1, 0 <= r < 1.
 * The model's own yield is 1: rejects are in the count ordered.
 */
export function landedCost(
  quote: OutsideQuote,
  goodPieceCount: number,
  receiving: ReceivingRates,
): LandedCost {
  if (!(quote.rejectFraction >= 0 && quote.rejectFraction < 1)) {
    throw new RangeError(`A reject rate lies from 0 to below 1, not ${quote.rejectFraction}.`)
  }
  if (!Number.isInteger(goodPieceCount) || goodPieceCount < 1) {
    throw new RangeError(`An order is for one piece or more, not ${goodPieceCount}.`)
  }
  const wanted = quote.replacesRejects
    ? goodPieceCount
    : Math.ceil(goodPieceCount / (1 - quote.rejectFraction) - 1e-9)
  const price = orderPrice(quote.breaks, Math.max(wanted, quote.minimumPieceCount ?? 1))
  const piecesCents = Math.max(price.totalCents, quote.minimumOrderCents ?? 0)
  const inspected = quote.replacesRejects
    ? price.orderedPieceCount / (1 - quote.rejectFraction)
    : price.orderedPieceCount
  const items = landedItems(quote, receiving, price.orderedPieceCount, piecesCents, inspected)
  const model: CostModel = {
    goodPieces: goodPieceCount,
    yieldFraction: 1,
    learning: { model: 'unit', rateFraction: 1 },
    overheadFactor: receiving.overheadFactor,
    contingencyFraction: receiving.contingencyFraction,
    hoursPerDay: receiving.hoursPerDay,
    items,
  }
  const lines = landedLines(model)
  const totalCents = lines.reduce((sum, { cents }) => sum + cents, 0)
  return {
    goodPieceCount,
    orderedPieceCount: price.orderedPieceCount,
    unitPriceCents: price.totalCents / price.orderedPieceCount,
    lines,
    totalCents,
    perGoodPieceCents: totalCents / goodPieceCount,
    cheaperLargerOrder: price.cheaperLargerOrder,
    model,
  }
}

function landedItems(
  quote: OutsideQuote,
  receiving: ReceivingRates,
  ordered: number,
  piecesCents: number,
  inspected: number,
): CostItem[] {
  const once = (key: string, label: string, cents: number, from: string): CostItem[] =>
    cents > 0
      ? [
          {
            key,
            label,
            group: 'outside',
            quantity: fixed(1),
            centsPerUnit: cents,
            count: { kind: 'job' },
            from,
          },
        ]
      : []
  const work = (
    key: string,
    label: string,
    minutes: ThreePoint,
    centsPerH: number,
    from: string,
  ): CostItem => ({
    key,
    label,
    group: 'labour',
    quantity: minutes,
    centsPerUnit: centsPerH / 60,
    minutesPerUnit: 1,
    count: { kind: 'job' },
    from,
  })
  const wait = (key: string, label: string, days: ThreePoint, from: string): CostItem => ({
    key,
    label,
    group: 'waiting',
    quantity: days,
    centsPerUnit: 0,
    daysPerUnit: 1,
    count: { kind: 'job' },
    from,
  })
  return [
    ...once('outside:pieces', 'Pieces', piecesCents, `${ordered} ordered`),
    ...once(
      'outside:supplied',
      'Material we supply',
      (quote.suppliedCentsPerPiece ?? 0) * ordered,
      `${ordered} ordered, ours to buy`,
    ),
    ...once('outside:tooling', 'Tooling', quote.toolingCents, 'as quoted'),
    ...once('outside:setUp', 'Set-up', quote.setUpCents, 'as quoted'),
    ...once('outside:freight', 'Freight', quote.freightCents, 'as quoted'),
    work('orderOutside:setUp', 'Ordering', receiving.orderMinutes, receiving.officeCentsPerH, 'office rate'),
    work(
      'receive:setUp',
      'Receiving',
      receiving.perDeliveryMinutes,
      receiving.inspectionCentsPerH,
      'inspection rate, once a delivery',
    ),
    work(
      'receive:run',
      'Receiving inspection',
      {
        low: receiving.perPieceMinutes.low * inspected,
        likely: receiving.perPieceMinutes.likely * inspected,
        high: receiving.perPieceMinutes.high * inspected,
      },
      receiving.inspectionCentsPerH,
      `inspection rate, ${Number(inspected.toPrecision(3))} pieces looked at`,
    ),
    wait('outside:lead', 'Lead time', quote.leadDays, 'as promised'),
    ...(quote.lateDays ? [wait('outside:late', 'Late', quote.lateDays, 'this source so far')] : []),
  ].filter(({ quantity }) => quantity.high > 0)
}

function landedLines(model: CostModel): LandedCost['lines'] {
  const lines = model.items
    .filter(({ group }) => group !== 'waiting')
    .map((item) => ({
      key: item.key,
      label: item.label,
      cents: wholeCents(item.quantity.likely * item.centsPerUnit),
      from: item.from,
      labour: item.group === 'labour',
    }))
  const labourCents = lines.reduce((sum, { cents, labour }) => sum + (labour ? cents : 0), 0)
  const overheadCents = wholeCents(labourCents * model.overheadFactor)
  const beforeCents = lines.reduce((sum, { cents }) => sum + cents, 0) + overheadCents
  const contingencyCents = wholeCents(beforeCents * model.contingencyFraction)
  return [
    ...lines.map(({ key, label, cents, from }) => ({ key, label, cents, from })),
    ...(overheadCents
      ? [{ key: 'overhead', label: 'Overhead', cents: overheadCents, from: 'of own labour' }]
      : []),
    ...(contingencyCents
      ? [{ key: 'contingency', label: 'Contingency', cents: contingencyCents, from: 'of all above' }]
      : []),
  ]
}

/** An in-house or outside purchase over a year, for the textbook form of total ownership cost. */
export interface OwnershipCost {
  readonly pieceCount: number
  readonly unitPriceCents: number
  readonly toolingCents: number
  readonly freightCents: number
  readonly orderCents: number
  readonly orderCount: number
  readonly carryingFraction: number
  readonly qualityFraction: number
}

/**
 * Total ownership cost of a purchase in equal lots.
 *   unit Q + tooling + freight + order cost * orders + carrying * (lot / 2) * unit + quality * unit Q
 * Source: purchasing texts, sourcing decision. Valid: one order or more.
 */
export function ownershipCents(cost: OwnershipCost): number {
  const goodsCents = cost.pieceCount * cost.unitPriceCents
  const lotCount = cost.pieceCount / cost.orderCount
  return (
    goodsCents +
    cost.toolingCents +
    cost.freightCents +
    cost.orderCents * cost.orderCount +
    cost.carryingFraction * (lotCount / 2) * cost.unitPriceCents +
    cost.qualityFraction * goodsCents
  )
}
