import { sampleCostModel } from '@/lib/core/cost/cost-model'
import type { CostedPart } from '@/lib/core/cost/costed-part'
import { estimateCost, estimateModel } from '@/lib/core/cost/estimate'
import type { EstimateInput } from '@/lib/core/cost/estimate-input'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'

const arm: CostedPart = {
  family: 'aluminium',
  sectionAreaMm2: 443.5,
  wallMm: 3.175,
  perimeterMm: 152.4,
  boreAreaMm2: 1008,
  cutLengthMm: 1400,
  massKg: 1.68,
  bendAnglesDeg: [32, 45],
  planeChangeCount: 1,
  angleToleranceDeg: 0.5,
  startCut: 'square',
  endCut: 'mitre',
  holeCount: 2,
  featureCount: 8,
  fillerKg: 13.2,
  weldedEndCount: 1,
  dyePenetrant: true,
}

const orderOf = (pieceCount: number): EstimateInput => ({
  way: 'lowMeltStrap',
  pieceCount,
  part: arm,
  rates: defaultShopRates,
  material: {
    plannedStarts: pieceCount + 2,
    plannedCents: 18_000,
    extraStartCents: 2400,
    from: 'two bars of 6 m',
  },
})
const order = orderOf(6)
const model = estimateModel(order)

export const cases = [
  {
    title: `10,000 orders drawn of an estimate of ${model.items.length} lines (aim: 30 ms)`,
    run: () => sampleCostModel(model),
  },
  { title: 'the whole estimate of one quantity, with its 10,000 orders', run: () => estimateCost(order) },
  {
    title: 'the estimate of a price list of three quantities',
    run: () => [1, 6, 20].map((pieceCount) => estimateCost(orderOf(pieceCount))),
  },
]
