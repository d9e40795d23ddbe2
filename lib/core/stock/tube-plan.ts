import type { MaterialCost } from '@/lib/core/cost/estimate-input'
import { nestedMaterialCost } from '@/lib/core/cost/material-cost'
import { wholeCents } from '@/lib/core/cost/money'
import { nestPieces } from '@/lib/core/stock/nest'
import type { NestInput, NestResult } from '@/lib/core/stock/nest-plan'

/** A bar or offcut that lies free, and what a metre of its lot cost. */
export interface FreeBar {
  readonly key: string
  readonly lengthMm: number
  readonly isOffcut: boolean
  readonly centsPerM: number
}

/** A length that can be bought, priced by the bar. */
export interface BarToBuy {
  readonly lengthMm: number
  readonly priceCents: number
}

export interface TubeQuestion {
  /** What is sawn for one start. */
  readonly sawnPieces: readonly { readonly lengthMm: number; readonly pieceCount: number }[]
  readonly plannedStarts: number
  readonly rack: readonly FreeBar[]
  readonly buyable: readonly BarToBuy[]
  readonly kerfMm: number
  readonly endTrimMm: number
  readonly keepOffcutFromMm: number
  readonly offcutValueFraction: number
}

/** The tube of an order: how it is cut, and what it costs. No cost where there is not enough tube. */
export interface TubePlan {
  readonly input: NestInput
  readonly result: NestResult
  readonly material: MaterialCost | null
}

/**
 * The cutting of an order's planned starts from the rack and from bars to buy, at the least cost.
 *   a whole bar costs what it was bought for, an offcut and what goes back a share of it; each start more at the cheapest metre
 * Source: nest.ts; the worth of an offcut is the shop's own. Valid: one start or more.
 */
export async function planTube(question: TubeQuestion): Promise<TubePlan> {
  const input = tubeNest(question)
  const result = await nestPieces(input)
  const lengthMm = question.sawnPieces.reduce((sum, piece) => sum + piece.lengthMm * piece.pieceCount, 0)
  const cutCount = question.sawnPieces.reduce((sum, piece) => sum + piece.pieceCount, 0)
  const material = result.found
    ? nestedMaterialCost(result.plan, {
        plannedStarts: question.plannedStarts,
        cutLengthMm: lengthMm,
        kerfMm: question.kerfMm * cutCount,
        centsPerM: cheapestCentsPerM(question),
      })
    : null
  return { input, result, material }
}

function tubeNest(question: TubeQuestion): NestInput {
  const worth = question.offcutValueFraction
  return {
    pieces: question.sawnPieces.map(({ lengthMm, pieceCount }, index) => ({
      key: String.fromCharCode(65 + index),
      lengthMm,
      pieceCount: pieceCount * question.plannedStarts,
    })),
    rack: question.rack.map(({ key, lengthMm, isOffcut, centsPerM }) => ({
      key,
      lengthMm,
      kind: isOffcut ? 'offcut' : 'bar',
      costCents: wholeCents((lengthMm / 1000) * centsPerM * (isOffcut ? worth : 1)),
    })),
    buyable: question.buyable.map((bar, index) => ({ key: `buy-${index + 1}`, ...bar })),
    kerfMm: question.kerfMm,
    endTrimMm: question.endTrimMm,
    trimFarEnd: false,
    keepOffcutFromMm: question.keepOffcutFromMm,
    offcutValueCentsPerM: cheapestCentsPerM(question) * worth,
  }
}

/** The price of a metre: of the cheapest bar to buy, else of the rack's. */
function cheapestCentsPerM({ buyable, rack }: TubeQuestion): number {
  const bought = buyable.map(({ lengthMm, priceCents }) => (1000 * priceCents) / lengthMm)
  if (bought.length > 0) return Math.min(...bought)
  return Math.max(0, ...rack.map(({ centsPerM }) => centsPerM))
}
