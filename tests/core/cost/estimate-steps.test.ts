import { describe, expect, it } from 'vitest'
import { estimateCost } from '@/lib/core/cost/estimate'
import type { EstimateInput } from '@/lib/core/cost/estimate-input'
import { estimateSteps } from '@/lib/core/cost/estimate-steps'
import { defaultShopRates } from '@/lib/core/cost/shop-rates'

const before: EstimateInput = {
  way: 'hollow',
  pieceCount: 6,
  part: {
    family: 'aluminium',
    sectionAreaMm2: 444,
    wallMm: 3.175,
    perimeterMm: 152.4,
    boreAreaMm2: 1000,
    cutLengthMm: 1300,
    massKg: 1.56,
    bendAnglesDeg: [32],
    planeChangeCount: 0,
    angleToleranceDeg: 1,
    startCut: 'square',
    endCut: 'square',
    holeCount: 0,
    featureCount: 7,
    fillerKg: 0,
    weldedEndCount: 0,
    dyePenetrant: false,
  },
  rates: defaultShopRates,
  material: { plannedStarts: 8, plannedCents: 20_000, extraStartCents: 2500, from: 'by hand' },
  firstPassYieldFraction: 0.85,
}

describe('Why an order costs otherwise', () => {
  it('is told in steps that add up to the difference of the expected costs, to the cent', () => {
    const after: EstimateInput = {
      ...before,
      way: 'sand',
      material: { ...before.material, plannedCents: 26_000 },
      rates: { ...defaultShopRates, overheadFactor: 0.5 },
      firstPassYieldFraction: 0.7,
      overrides: [
        {
          operationKey: 'setUpPress',
          field: 'setUpMinutes',
          value: { low: 10, likely: 10, high: 10 },
          reason: 'stays on',
        },
      ],
    }
    const steps = estimateSteps(before, after)
    const mean = (input: EstimateInput) => Math.round(estimateCost(input).costCents.mean)
    const sum = steps.reduce((total, { changeCents }) => total + changeCents, 0)
    expect(sum).toBe(mean(after) - mean(before))
    const signs = Object.fromEntries(steps.map(({ key, changeCents }) => [key, Math.sign(changeCents)]))
    expect(signs).toEqual({ way: 1, tools: 0, tube: 1, rates: 1, yield: 1, times: -1 })
  })

  it('counts dearer tube with its contingency and nothing else: 60.00 and 5 percent are 63.00', () => {
    const after = { ...before, material: { ...before.material, plannedCents: 26_000 } }
    const tube = estimateSteps(before, after).find(({ key }) => key === 'tube')
    expect(tube?.changeCents).toBe(6300)
  })

  it('is nothing for an estimate set against itself', () => {
    expect(estimateSteps(before, before).every(({ changeCents }) => changeCents === 0)).toBe(true)
  })

  it('leaves out times of operations that the other way lacks, and refuses two quantities', () => {
    const filled: EstimateInput = {
      ...before,
      way: 'lowMelt',
      overrides: [
        {
          operationKey: 'fill',
          field: 'setUpMinutes',
          value: { low: 5, likely: 5, high: 5 },
          reason: 'pot is hot',
        },
      ],
    }
    expect(() => estimateSteps(filled, before)).not.toThrow()
    expect(() => estimateSteps(before, { ...before, pieceCount: 7 })).toThrow('one quantity')
  })
})
