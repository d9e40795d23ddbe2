import { type CostedPart, requireCostedPart } from '@/lib/core/cost/costed-part'
import type { Operation, OperationKey, OperationOverride } from '@/lib/core/cost/operation'
import { operationsByKey } from '@/lib/core/cost/operation-drivers'
import type { OperationTimes } from '@/lib/core/cost/operation-times'
import { type Support, type WayKey, waySupport } from '@/lib/core/cost/ways'

export interface RoutingInput {
  readonly way: WayKey
  readonly part: CostedPart
  readonly times: OperationTimes
  /** Where the way leaves it open (bent in T4, annealed): what holds the bore. */
  readonly support?: Support
  readonly strap?: boolean
  readonly overrides?: readonly OperationOverride[]
}

/**
 * The operations of one way of making a part, in order, each driven by the part's own numbers.
 * Source: the order is the shop's method (clean, fill, bend, melt out, then heat treat, then cut ends, so that ends are true); times as named on each.
 * Valid: parts that `requireCostedPart` lets through.
 */
export function routing(input: RoutingInput): Operation[] {
  requireCostedPart(input.part)
  const { support, strap } = waySupport(input.way, input)
  const context = { part: input.part, times: input.times, support, strap, way: input.way }
  const operations = routeKeys(input.way, input.part, support).map((key) => operationsByKey[key](context))
  return applyOverrides(operations, input.overrides ?? [])
}

/**
 * Operations with a person's times put in, the computed ones kept beside them.
 * Valid: each override names an operation of the routing, goes upwards from zero and gives a reason.
 */
export function applyOverrides(
  operations: readonly Operation[],
  overrides: readonly OperationOverride[],
): Operation[] {
  for (const override of overrides) {
    if (!operations.some(({ key }) => key === override.operationKey)) {
      throw new RangeError(`This way has no operation "${override.operationKey}" to set a time for.`)
    }
    const { low, likely, high } = override.value
    if (!(low >= 0 && low <= likely && likely <= high && Number.isFinite(high))) {
      throw new RangeError(`Minutes go upwards from zero, not ${low}, ${likely}, ${high}.`)
    }
    if (override.reason.trim() === '') throw new RangeError('A time that is set by hand needs a reason.')
  }
  return operations.map((operation) =>
    overrides
      .filter(({ operationKey }) => operationKey === operation.key)
      .reduce<Operation>((changed, override) => {
        const original = operation[override.field]
        const others = changed.overridden.filter(({ field }) => field !== override.field)
        return {
          ...changed,
          [override.field]: override.value,
          overridden: [...others, { ...override, original }],
        }
      }, operation),
  )
}

function routeKeys(way: WayKey, part: CostedPart, support: Support): OperationKey[] {
  if (way === 'outside') return [...outsideRoute(part)]
  const ends = endKeys(part)
  const welding: OperationKey[] = part.weldedEndCount > 0 ? ['fitWeld'] : []
  const finish: OperationKey[] = part.holeCount > 0 ? ['drill', 'inspect', 'pack'] : ['inspect', 'pack']
  const bent = part.bendAnglesDeg.length > 0
  if (way === 'mitredWelded') {
    const joint: OperationKey[] = bent ? ['sawMitres', 'deburr', 'fitWeldMitres'] : ['saw', 'deburr']
    return ['readJob', ...joint, ...ends, ...welding, ...finish]
  }
  const before: OperationKey[] = ['readJob', 'saw', 'deburr', 'mark']
  if (!bent) return [...before, ...ends, ...welding, ...finish]
  const anneal: OperationKey[] = way === 'annealedThenSolutionAged' ? ['anneal'] : []
  const fill: OperationKey[] =
    support === 'lowMelt' ? ['cleanBore', 'fill'] : support === 'sand' ? ['packSand'] : []
  const bend: OperationKey[] = ['setUpPress', 'trial', 'bend']
  const empty: OperationKey[] = support === 'lowMelt' ? ['meltOut'] : support === 'sand' ? ['emptySand'] : []
  const treat: OperationKey[] =
    way === 't4ThenAged' ? ['age'] : way === 'annealedThenSolutionAged' ? ['solutionAge'] : []
  const penetrant: OperationKey[] = part.dyePenetrant ? ['dyePenetrant'] : []
  return [
    ...before,
    ...anneal,
    ...fill,
    ...bend,
    ...empty,
    'checkAngles',
    ...penetrant,
    ...treat,
    ...ends,
    ...welding,
    ...finish,
  ]
}

function outsideRoute(part: CostedPart): OperationKey[] {
  const welding: OperationKey[] = part.weldedEndCount > 0 ? ['fitWeld'] : []
  return ['readJob', 'orderOutside', 'receive', ...endKeys(part), ...welding, 'inspect', 'pack']
}

function endKeys(part: CostedPart): OperationKey[] {
  const cuts = [part.startCut, part.endCut]
  const keys: OperationKey[] = []
  if (cuts.includes('square')) keys.push('trimEnds')
  if (cuts.includes('mitre')) keys.push('mitreEnds')
  if (cuts.includes('saddle')) keys.push('saddleEnds')
  return keys
}
