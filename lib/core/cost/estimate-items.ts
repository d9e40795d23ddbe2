import type { CostItem } from '@/lib/core/cost/cost-model'
import type { CostedPart } from '@/lib/core/cost/costed-part'
import type { EstimateInput } from '@/lib/core/cost/estimate-input'
import type { Operation } from '@/lib/core/cost/operation'
import { slantOf } from '@/lib/core/cost/saw-and-weld'
import type { HeatTreatment, ShopRates } from '@/lib/core/cost/shop-rates'
import { fixed, scaled, type ThreePoint } from '@/lib/core/cost/spread'
import { waySupport } from '@/lib/core/cost/ways'
import { workCentreNames } from '@/lib/core/cost/work-centres'

/** Every item of an estimate's cost, from its operations, material, filler, consumables, tooling and outside treatment. */
export function estimateItems(input: EstimateInput, operations: readonly Operation[]): CostItem[] {
  return [
    queueItem(input.rates),
    ...operations.flatMap((operation) => operationItems(operation, input.rates)),
    ...materialItems(input),
    ...fillerItems(input),
    ...consumableItems(input, operations),
    ...toolingItems(input),
    ...heatTreatItems(input, operations),
  ]
}

function queueItem(rates: ShopRates): CostItem {
  return {
    key: 'queue',
    label: 'Waits for its turn',
    group: 'waiting',
    quantity: rates.queueDays,
    centsPerUnit: 0,
    count: { kind: 'job' },
    daysPerUnit: 1,
    from: 'the shop\u2019s queue',
  }
}

/** Set-up, run and waiting of one operation as cost items, the allowance put on once. */
export function operationItems(operation: Operation, rates: ShopRates): CostItem[] {
  const rateCentsPerH = rates.labourCentsPerH[operation.workCentre]
  const allowance = 1 + rates.allowanceFraction
  const at = `${workCentreNames[operation.workCentre].toLowerCase()} rate, ${percent(rates.allowanceFraction)} allowance`
  const shared = { group: 'labour' as const, centsPerUnit: rateCentsPerH / 60, minutesPerUnit: 1 }
  const items: CostItem[] = []
  if (operation.setUpMinutes.high > 0) {
    items.push({
      ...shared,
      key: `${operation.key}:setUp`,
      label: `${operation.name}: set-up`,
      quantity: scaled(operation.setUpMinutes, allowance),
      count: { kind: 'job' },
      from: `${operation.driver}; ${at}`,
    })
  }
  if (operation.runMinutesPerPiece.high > 0) {
    const learns = operation.hand && rates.learning.rateFraction < 1
    const faster = learns ? `, learning ${percent(rates.learning.rateFraction)}` : ''
    items.push({
      ...shared,
      key: `${operation.key}:run`,
      label: operation.name,
      quantity: scaled(operation.runMinutesPerPiece, allowance),
      count: { kind: operation.runsPer, learns },
      from: `${operation.driver}; each ${operation.runsPer === 'start' ? 'start' : 'good piece'}${faster}; ${at}`,
    })
  }
  if (operation.elapsedMinutes.high > 0) {
    items.push({
      key: `${operation.key}:elapsed`,
      label: `${operation.name}: waiting`,
      group: 'waiting',
      quantity: operation.elapsedMinutes,
      centsPerUnit: 0,
      minutesPerUnit: 1,
      count: {
        kind: operation.runsPer === 'start' ? 'startBatch' : 'goodBatch',
        piecesPerBatch: operation.piecesPerBatch,
      },
      from: `nobody stands by; ${operation.piecesPerBatch} pieces at a time`,
    })
  }
  return items
}

function materialItems({ material, rates }: EstimateInput): CostItem[] {
  const more = 1 + rates.materialScrapFraction
  const items: CostItem[] = [
    item('material', 'Tube', 'material', fixed(1), material.plannedCents * more, {
      from: `${material.from}; for ${material.plannedStarts} starts`,
    }),
  ]
  if (material.extraStartCents > 0) {
    items.push({
      ...item(
        'materialExtra',
        'Tube for more starts',
        'material',
        fixed(1),
        material.extraStartCents * more,
        {
          from: `each start past ${material.plannedStarts}`,
        },
      ),
      count: { kind: 'startBeyond', includedStarts: material.plannedStarts },
    })
  }
  if (rates.freightInCents > 0 && material.plannedCents > 0) {
    items.push(
      item('freightIn', 'Freight on tube', 'material', fixed(1), rates.freightInCents, {
        from: 'shop\u2019s rate',
      }),
    )
  }
  return items
}

function fillerItems(input: EstimateInput): CostItem[] {
  const { part, rates } = input
  if (part.bendAnglesDeg.length === 0) return []
  const { support } = waySupport(input.way, input)
  if (support === 'lowMelt' && part.fillerKg > 0) {
    return [
      perStart(
        item(
          'fillerLoss',
          'Filler lost',
          'filler',
          scaled(rates.fillerLossFraction, part.fillerKg),
          rates.fillerCentsPerKg,
          {
            from: `${short(part.fillerKg)} kg poured a start, ${percent(rates.fillerLossFraction.likely)} lost`,
          },
        ),
      ),
    ]
  }
  if (support === 'sand') {
    const litres = (part.boreAreaMm2 * part.cutLengthMm) / 1e6
    return [
      perStart(
        item(
          'sandLoss',
          'Sand lost',
          'filler',
          scaled(rates.sandLossFraction, litres),
          rates.sandCentsPerLitre,
          {
            from: `${short(litres)} litres a start, ${percent(rates.sandLossFraction.likely)} lost`,
          },
        ),
      ),
    ]
  }
  return []
}

function consumableItems({ part, rates }: EstimateInput, operations: readonly Operation[]): CostItem[] {
  const has = (key: Operation['key']): boolean => operations.some((operation) => operation.key === key)
  const items = [
    item('consumablesJob', 'Consumables, once', 'consumables', fixed(1), rates.consumablesPerJobCents, {
      from: 'shop\u2019s rate a job',
    }),
    perStart(
      item('consumablesPiece', 'Consumables', 'consumables', fixed(1), rates.consumablesPerPieceCents, {
        from: 'shop\u2019s rate a start',
      }),
    ),
  ]
  if (has('cleanBore')) {
    const lengthM = part.cutLengthMm / 1000
    items.push(
      perStart(
        item('boreOil', 'Bore oil and degreaser', 'consumables', fixed(lengthM), rates.boreOilCentsPerM, {
          from: `${short(lengthM)} m a start`,
        }),
      ),
    )
  }
  const weldM = weldLengthMm(part, has('fitWeldMitres'), has('fitWeld')) / 1000
  if (weldM > 0) {
    items.push({
      ...item(
        'weldConsumables',
        'Wire, gas and tungsten',
        'consumables',
        fixed(weldM),
        rates.weldConsumablesCentsPerM,
        {
          from: `${short(weldM)} m of weld a piece`,
        },
      ),
      count: { kind: has('fitWeldMitres') ? 'start' : 'good', learns: false },
    })
  }
  if (has('dyePenetrant')) {
    const bends = part.bendAnglesDeg.length
    items.push(
      perStart(
        item('penetrant', 'Dye penetrant', 'consumables', fixed(bends), rates.dyePenetrantCentsPerBend, {
          from: `${bends} bends a start`,
        }),
      ),
    )
  }
  return items
}

function toolingItems({ tooling, rates }: EstimateInput): CostItem[] {
  return (tooling ?? []).flatMap((tool) => {
    if (!(tool.spreadOverJobs >= 1)) {
      throw new RangeError(`A tool is spread over one job or more, not ${tool.spreadOverJobs}.`)
    }
    const share = 1 / tool.spreadOverJobs
    const spreadText =
      tool.spreadOverJobs === 1 ? 'charged to this job' : `one part in ${tool.spreadOverJobs}`
    const items: CostItem[] = []
    if (tool.makeMinutes.high > 0) {
      items.push({
        ...item(
          `tooling:${tool.key}:make`,
          `Make ${tool.label}`,
          'labour',
          scaled(tool.makeMinutes, 1 + rates.allowanceFraction),
          (share * rates.labourCentsPerH.toolmaking) / 60,
          { from: `tool making rate, ${percent(rates.allowanceFraction)} allowance; ${spreadText}` },
        ),
        minutesPerUnit: 1,
      })
    }
    if (tool.materialCents > 0) {
      items.push(
        item(
          `tooling:${tool.key}:material`,
          `Material for ${tool.label}`,
          'tooling',
          fixed(share),
          tool.materialCents,
          {
            from: spreadText,
          },
        ),
      )
    }
    return items
  })
}

function heatTreatItems({ part, rates }: EstimateInput, operations: readonly Operation[]): CostItem[] {
  const names: Readonly<Record<HeatTreatment, string>> = {
    anneal: 'Annealing outside',
    age: 'Ageing outside',
    solutionAge: 'Solution treating and ageing outside',
  }
  return (['anneal', 'age', 'solutionAge'] as const).flatMap((treatment) => {
    const operation = operations.find(({ key }) => key === treatment)
    if (!operation) return []
    const rate = rates.heatTreat[treatment]
    return [
      {
        ...item(`heatTreat:${treatment}`, names[treatment], 'outside', fixed(part.massKg), rate.centsPerKg, {
          from: `${short(part.massKg)} kg a piece, at least the lot charge`,
        }),
        count: { kind: operation.runsPer, learns: false },
        minimumCents: rate.minimumLotCents,
      },
      item(
        `heatTreat:${treatment}:freight`,
        `${names[treatment]}: freight`,
        'outside',
        fixed(1),
        rate.freightCents,
        {
          from: 'both ways, one lot',
        },
      ),
      {
        ...item(`heatTreat:${treatment}:days`, `${names[treatment]}: away`, 'waiting', rate.days, 0, {
          from: 'heat treater\u2019s days',
        }),
        daysPerUnit: 1,
      },
    ]
  })
}

/** Length of weld in one piece: the mitre joints on their slant, and the ends this shop welds. */
function weldLengthMm(part: CostedPart, mitres: boolean, ends: boolean): number {
  const mitreMm = mitres
    ? part.bendAnglesDeg.reduce((sum, angleDeg) => sum + part.perimeterMm * slantOf(angleDeg), 0)
    : 0
  return mitreMm + (ends ? part.weldedEndCount * part.perimeterMm : 0)
}

function item(
  key: string,
  label: string,
  group: CostItem['group'],
  quantity: ThreePoint,
  centsPerUnit: number,
  said: { readonly from: string },
): CostItem {
  return { key, label, group, quantity, centsPerUnit, count: { kind: 'job' }, from: said.from }
}

function perStart(one: CostItem): CostItem {
  return { ...one, count: { kind: 'start', learns: false } }
}

function percent(fraction: number): string {
  return `${Number((100 * fraction).toPrecision(3))} percent`
}

function short(value: number): string {
  return String(Number(value.toPrecision(3)))
}
