import type { BendInPress } from '@/lib/core/mechanics/bend-setting'
import type { Trace, TraceInput } from '@/lib/core/mechanics/trace'
import type { Resolved } from '@/lib/core/spec/resolve'

export type PartLengths = Readonly<{
  developedLengthMm: number
  gripStartMm: number
  gripEndMm: number
  cutLengthMm: number
  /** What of it is there for slanted end cuts; absent where there is none. */
  cutReachMm?: number
}>

/**
 * How long the part is laid straight, and how long to cut it.
 *   developed = straights + sum(wanted radius * wanted angle + y_n * wrapped angle)
 *   cut = developed + grip at each end + trim + kerf,  grip = what the end straight lacks of s + h at full angle;
 *   where an end is cut slanted, also what the cut reaches out past grip and half the trim
 * Source: the neutral fibre keeps its length; what the arms turn comes off the arc and is given back by the arms. Within 1 mm.
 */
export function partLengths(resolved: Resolved, made: readonly BendInPress[], trace?: Trace): PartLengths {
  const { input, tube } = resolved
  const straightsMm = input.bends.reduce((sum, bend) => sum + bend.straightBeforeMm, input.straightAfterMm)
  const arcs = input.bends.map((bend, index): number => {
    const arc = (bend.centrelineRadiusMm * bend.angleDeg * Math.PI) / 180
    const bent = made[index]
    return arc + (bent ? bent.balance.neutralMm * 2 * bent.phiRad : 0)
  })
  const developedLengthMm = arcs.reduce((sum, arc) => sum + arc, straightsMm)
  const lacking = (bend: BendInPress | undefined, straightMm: number) =>
    Math.max((bend?.lever.freeMm ?? 0) + tube.heightMm - straightMm, 0)
  const gripStartMm = lacking(made[0], input.bends[0]?.straightBeforeMm ?? 0)
  const gripEndMm = lacking(made.at(-1), input.straightAfterMm)
  const trimMm = input.trimMm ?? 0
  const kerfMm = input.kerfMm ?? 0
  const beyond = (reachMm: number | undefined, gripMm: number) =>
    Math.max((reachMm ?? 0) - gripMm - trimMm / 2, 0)
  const cutReachMm = beyond(input.startReachMm, gripStartMm) + beyond(input.endReachMm, gripEndMm)
  const cutLengthMm = developedLengthMm + gripStartMm + gripEndMm + trimMm + kerfMm + cutReachMm
  if (trace) {
    const add = (key: string, formula: string, inputs: TraceInput[], value: number) =>
      trace.step(`/${key}`, {
        formula,
        inputs,
        value,
        unit: 'mm',
        source: 'geometry of the neutral fibre',
        trust: 'exact',
      })
    add(
      'developedLengthMm',
      'straights + sum(wanted radius * wanted angle + y_n * wrapped angle)',
      [
        ['straights', straightsMm, 'mm'],
        ...arcs.map(
          (arc, index): TraceInput => [`arc ${index + 1}`, arc, 'mm', `/bends.${index}.neutralAxisShiftMm`],
        ),
      ],
      developedLengthMm,
    )
    add(
      'gripStartMm',
      's + h less the first straight, at least 0',
      [
        ['s', made[0]?.lever.freeMm ?? 0, 'mm', '/bends.0.freeLengthMm'],
        ['h', tube.heightMm, 'mm'],
      ],
      gripStartMm,
    )
    add(
      'gripEndMm',
      's + h less the last straight, at least 0',
      [
        ['s', made.at(-1)?.lever.freeMm ?? 0, 'mm', `/bends.${made.length - 1}.freeLengthMm`],
        ['h', tube.heightMm, 'mm'],
      ],
      gripEndMm,
    )
    add(
      'cutLengthMm',
      `developed + grip at each end + trim + kerf${cutReachMm > 0 ? ' + what slanted cuts reach out' : ''}`,
      [
        ['developed', developedLengthMm, 'mm', '/developedLengthMm'],
        ['grip at the start', gripStartMm, 'mm', '/gripStartMm'],
        ['grip at the end', gripEndMm, 'mm', '/gripEndMm'],
        ['trim', trimMm, 'mm'],
        ['kerf', kerfMm, 'mm'],
        ...(cutReachMm > 0 ? ([['reach of slanted cuts', cutReachMm, 'mm']] as const) : []),
      ],
      cutLengthMm,
    )
  }
  return {
    developedLengthMm,
    gripStartMm,
    gripEndMm,
    cutLengthMm,
    ...(cutReachMm > 0 && { cutReachMm }),
  }
}

/** What a blank measures off the saw: the cut length less the kerf, which is the saw's. Exact. */
export function sawnLengthMm(spec: { readonly cutLengthMm: number }, kerfMm: number): number {
  return spec.cutLengthMm - kerfMm
}

/** The filler that fills the bore over the cut length. */
export function fillerAmount(
  resolved: Resolved,
  boreAreaMm2: number,
  cutLengthMm: number,
  trace?: Trace,
): { id: string; volumeMm3: number; massKg: number; densityKgM3: number; liquidusC?: number } | null {
  const { filler } = resolved
  if (!filler) return null
  const own = resolved.input.method.fillerDensityKgM3
  const densityKgM3 = own ?? filler.densityKgM3
  const volumeMm3 = boreAreaMm2 * cutLengthMm
  const massKg = (volumeMm3 * densityKgM3) / 1e9
  trace?.step('/filler.volumeMm3', {
    formula: 'bore area * cut length',
    inputs: [
      ['bore area', boreAreaMm2, 'mm²', '/section.boreAreaMm2'],
      ['cut length', cutLengthMm, 'mm', '/cutLengthMm'],
    ],
    value: volumeMm3,
    unit: 'mm³',
    source: 'geometry',
    trust: 'exact',
  })
  trace?.step('/filler.massKg', {
    formula: 'volume * density',
    inputs: [
      ['volume', volumeMm3, 'mm³', '/filler.volumeMm3'],
      ['density', densityKgM3, 'kg/m³'],
    ],
    value: massKg,
    unit: 'kg',
    source: own === undefined ? `density of ${filler.name}` : 'density of the pot, as entered',
    trust: 'exact',
  })
  return {
    id: filler.id,
    volumeMm3,
    massKg,
    densityKgM3,
    ...(filler.kind === 'lowMelt' && { liquidusC: filler.liquidusC }),
  }
}
