import { beforeAll, describe, expect, it } from 'vitest'
import { type ActualFacts, actualAgainst, estimateOfQuantity } from '@/lib/records/actual/rules'
import { makeEstimates } from '@/lib/records/estimate/read'
import {
  type EstimateInputs,
  type EstimateResults,
  firstAsk,
  pricedQuantity,
} from '@/lib/records/estimate/rules'
import { wayBases } from '@/lib/records/way/rules'
import { davitGround } from '../estimate/ground'

let inputs: EstimateInputs
let results: EstimateResults

beforeAll(async () => {
  const ask = firstAsk(davitGround, wayBases(davitGround))
  const made = ask && (await makeEstimates(davitGround, ask))
  if (!ask || !made) throw new Error('The davit arm can be costed.')
  inputs = {
    ask,
    ground: davitGround,
    basis: made.basis,
    quantities: made.quantities.map(({ input }) => input),
  }
  results = {
    quantities: made.quantities.map(({ estimate, tube }) => ({
      pieceCount: estimate.pieceCount,
      estimate,
      tube,
      priced: pricedQuantity(estimate, ask.pricing, davitGround.rates.priceRounding),
    })),
  }
})

const span = (minutes: number) => ({
  pieceId: null,
  startedAt: new Date('2026-03-02T09:00:00Z'),
  endedAt: new Date(Date.parse('2026-03-02T09:00:00Z') + minutes * 60_000),
})

const facts: ActualFacts = {
  quantity: 6,
  goodCount: 6,
  startedCount: 8,
  bendsOnDrawing: 1,
  tryCount: 9,
  operations: [
    { key: 'setUpPress', name: 'Set up the press', logs: [span(90)] },
    { key: 'sweep', name: 'Sweep the floor', logs: [span(10)] },
  ],
  bars: [{ number: 'L-0001', lengthMm: 6000, backMm: 1000, centsPerM: 2000 }],
  filler: { pouredKg: 70, recoveredKg: 68, lostKg: 1.5 },
  soldForCents: null,
}

function report(over: Partial<ActualFacts> = {}) {
  const made = estimateOfQuantity(inputs, results, 6)
  if (!made) throw new Error('Six were estimated.')
  const of = { id: 1, number: 1, rates: davitGround.rates, currency: 'USD', estimate: made.estimate }
  return actualAgainst(of, { ...facts, ...over })
}

describe('A job against its estimate', () => {
  it('prices logged minutes at the work centre’s rate: 90 min of press at 75.00 an hour are 112.50', () => {
    const press = report().operations.find(({ operationKey }) => operationKey === 'setUpPress')
    expect(press?.actualMinutes).toBe(90)
    expect(press?.actualCents).toBe(11_250)
    // Planned: 48 min with the strap and 15 percent allowance, 25 to 105 before it.
    expect(press?.plannedMinutes.likely).toBeCloseTo(55.2, 9)
    expect(press?.verdict).toBe('within')
  })

  it('leaves what nobody timed out on both sides, and names what nobody planned', () => {
    const { operations, costs } = report()
    expect(operations.find(({ operationKey }) => operationKey === 'bend')?.verdict).toBe('notLogged')
    expect(operations.find(({ operationKey }) => operationKey === 'sweep')?.verdict).toBe('notPlanned')
    const labour = costs.find(({ key }) => key === 'labour')
    // 48 min * 1.15 * 75.00 / 60 planned for the press, nothing for the floor.
    expect(labour?.plannedCents).toBe(6900)
    // 112.50, and 10 min at the bench's 65.00.
    expect(labour?.actualCents).toBe(11_250 + 1083)
  })

  it('counts tube by what is gone from the bars: 5 m at 20.00 are 100.00', () => {
    expect(report().costs.find(({ key }) => key === 'tube')?.actualCents).toBe(10_000)
  })

  it('counts filler that did not come back: 2 kg at 55.00', () => {
    expect(report().costs.find(({ key }) => key === 'filler')?.actualCents).toBe(11_000)
  })

  it('says not known where rack and ledger name nothing, and sums only what is known', () => {
    const { costs, actualCents } = report({ bars: [], filler: { pouredKg: 0, recoveredKg: 0, lostKg: 0 } })
    expect(costs.filter((row) => row.actualCents === null).map(({ key }) => key)).toEqual(['tube', 'filler'])
    expect(actualCents).toBe(11_250 + 1083)
  })

  it('says nothing of earnings while the job goes on', () => {
    expect(report().earned).toBeNull()
  })

  it('that took nothing else than estimated earns its price less the estimate at the starts it made', () => {
    const earned = report({
      operations: [],
      bars: [],
      filler: { pouredKg: 0, recoveredKg: 0, lostKg: 0 },
      soldForCents: 400_000,
    }).earned
    const { estimate } = estimateOfQuantity(inputs, results, 6) ?? {}
    expect(earned?.expectedCostCents).toBe(Math.round(estimate?.costCents.mean ?? 0))
    // Eight were started, and eight are what six good at 85 percent are likely to take: 7.06, rounded up.
    expect(earned?.costCents).toBe(estimate?.likelyCents)
    expect(earned?.marginFraction).toBeCloseTo(1 - (estimate?.likelyCents ?? 0) / 400_000, 9)
  })

  it('takes an hour more at the press at its rate with overhead and contingency on top', () => {
    const logged = (minutes: number) =>
      report({
        operations: [{ key: 'setUpPress', name: 'Set up the press', logs: [span(minutes)] }],
        bars: [],
        filler: { pouredKg: 0, recoveredKg: 0, lostKg: 0 },
        soldForCents: 400_000,
      }).earned?.costCents ?? 0
    // By hand: 60 min at 75.00 an hour, 35 percent overhead, 5 percent contingency: 75.00 x 1.35 x 1.05 = 106.31.
    expect(Math.abs(logged(150) - logged(90) - 10_631)).toBeLessThanOrEqual(1)
  })

  it('works a quantity that was not estimated out again from the nearest smaller one', () => {
    const made = estimateOfQuantity(inputs, results, 10)
    expect(made?.estimate.pieceCount).toBe(10)
    // Ten good at 85 percent: 11.8 starts, twelve planned.
    expect(made?.input.material.plannedStarts).toBe(12)
    expect(made?.input.part).toEqual(inputs.quantities[1]?.part)
  })
})
