import type { Trace, TraceInput } from '@/lib/core/mechanics/trace'

export type TubeShape = 'square' | 'rectangular' | 'round'

/** A tube as it lies in the press: height in the bend plane, width across it. */
export type Tube = Readonly<{
  shape: TubeShape
  widthMm: number
  heightMm: number
  wallMm: number
  /** Outside corner radius; of no meaning for a round tube. */
  cornerRadiusMm: number
}>

export type SectionProperties = Readonly<{
  areaMm2: number
  inertiaMm4: number
  elasticModulusMm3: number
  plasticModulusMm3: number
  boreAreaMm2: number
  boreInertiaMm4: number
}>

/** A solid rectangle with rounded corners, or a disc where the radius is half of both sides. */
type Solid = Readonly<{ widthMm: number; heightMm: number; radiusMm: number }>

/** From the sharp corner to the centroid of what rounding takes away, over the radius. */
const cornerCentroid = (10 - 3 * Math.PI) / (12 - 3 * Math.PI)

function outside(tube: Tube): Solid {
  const radiusMm = tube.shape === 'round' ? tube.heightMm / 2 : tube.cornerRadiusMm
  return { widthMm: tube.widthMm, heightMm: tube.heightMm, radiusMm }
}

function bore(tube: Tube): Solid {
  const outer = outside(tube)
  return {
    widthMm: outer.widthMm - 2 * tube.wallMm,
    heightMm: outer.heightMm - 2 * tube.wallMm,
    radiusMm: Math.max(outer.radiusMm - tube.wallMm, 0),
  }
}

function solidProperties({ widthMm, heightMm, radiusMm: r }: Solid) {
  const missing = (1 - Math.PI / 4) * r ** 2
  const missingInertia = (1 / 3 - Math.PI / 16 - 1 / (3 * (12 - 3 * Math.PI))) * r ** 4
  const armMm = heightMm / 2 - cornerCentroid * r
  return {
    area: widthMm * heightMm - 4 * missing,
    inertia: (widthMm * heightMm ** 3) / 12 - 4 * (missingInertia + missing * armMm ** 2),
    plastic: (widthMm * heightMm ** 2) / 4 - 4 * missing * armMm,
  }
}

/**
 * Area, second moment and moduli of a tube about the axis normal to the bend plane, and of its bore.
 *   A, I, Z of the outside less those of the bore; S = 2 I / h
 * Source: EN 10219-2:2019 Annex B (rounded hollow sections); statics for round tube. Exact.
 */
export function sectionProperties(tube: Tube, trace?: Trace): SectionProperties {
  const outer = solidProperties(outside(tube))
  const inner = solidProperties(bore(tube))
  const inertiaMm4 = outer.inertia - inner.inertia
  const found: SectionProperties = {
    areaMm2: outer.area - inner.area,
    inertiaMm4,
    elasticModulusMm3: (2 * inertiaMm4) / tube.heightMm,
    plasticModulusMm3: outer.plastic - inner.plastic,
    boreAreaMm2: inner.area,
    boreInertiaMm4: inner.inertia,
  }
  if (trace) record(trace, tube, found)
  return found
}

function record(trace: Trace, tube: Tube, found: SectionProperties): void {
  const source = tube.shape === 'round' ? 'geometry' : 'EN 10219-2:2019 Annex B, inside corner radius ro - t'
  const size: TraceInput[] = [
    ['b', tube.widthMm, 'mm'],
    ['h', tube.heightMm, 'mm'],
    ['t', tube.wallMm, 'mm'],
    ['ro', outside(tube).radiusMm, 'mm'],
  ]
  const add = (key: keyof SectionProperties, formula: string, unit: string, inputs = size) =>
    trace.step(`/section.${key}`, { formula, inputs, value: found[key], unit, source, trust: 'exact' })
  add('areaMm2', 'A = b h - (4 - pi) ro^2 less the same of the bore', 'mm²')
  add(
    'inertiaMm4',
    'I = b h^3 / 12 - 4 (0.007545 ro^4 + 0.2146 ro^2 (h/2 - 0.2234 ro)^2) less the same of the bore',
    'mm⁴',
  )
  add('plasticModulusMm3', 'Z = b h^2 / 4 - 0.8584 ro^2 (h/2 - 0.2234 ro) less the same of the bore', 'mm³')
  add('boreAreaMm2', 'Ab = (b - 2 t)(h - 2 t) - (4 - pi) ri^2', 'mm²')
  add('boreInertiaMm4', 'If: as I, of the bore', 'mm⁴')
  add('elasticModulusMm3', 'S = 2 I / h', 'mm³', [
    ['I', found.inertiaMm4, 'mm⁴', '/section.inertiaMm4'],
    ['h', tube.heightMm, 'mm'],
  ])
}
