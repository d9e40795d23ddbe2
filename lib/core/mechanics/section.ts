import { gaussPanels } from '@/lib/core/mechanics/quadrature'

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
export function sectionProperties(tube: Tube): SectionProperties {
  const outer = solidProperties(outside(tube))
  const inner = solidProperties(bore(tube))
  const inertiaMm4 = outer.inertia - inner.inertia
  return {
    areaMm2: outer.area - inner.area,
    inertiaMm4,
    elasticModulusMm3: (2 * inertiaMm4) / tube.heightMm,
    plasticModulusMm3: outer.plastic - inner.plastic,
    boreAreaMm2: inner.area,
    boreInertiaMm4: inner.inertia,
  }
}

/** A section as fibres: heights above the centroid and the area that stands there. Areas may be negative: the bore's. */
export type Fibres = Readonly<{ yMm: Float64Array; areaMm2: Float64Array }>

/** Fibres of the half above the centroid; a section is the same below. */
function upperHalf({ widthMm, heightMm, radiusMm }: Solid, sign: 1 | -1): [number, number][] {
  const webMm = heightMm / 2 - radiusMm
  const fibres: [number, number][] = []
  if (webMm > 0) {
    for (const [y, weight] of gaussPanels(0, webMm, 4)) fibres.push([y, sign * weight * widthMm])
  }
  if (radiusMm > 0) {
    const panelCount = webMm > radiusMm ? 1 : 3
    for (const [angle, weight] of gaussPanels(0, Math.PI / 2, panelCount)) {
      const across = widthMm - 2 * radiusMm * (1 - Math.cos(angle))
      fibres.push([webMm + radiusMm * Math.sin(angle), sign * weight * across * radiusMm * Math.cos(angle)])
    }
  }
  return fibres
}

function asFibres(list: readonly (readonly [number, number])[]): Fibres {
  return { yMm: Float64Array.from(list, ([y]) => y), areaMm2: Float64Array.from(list, ([, area]) => area) }
}

/** The upper half of the bore. */
export function boreHalfFibres(tube: Tube): Fibres {
  return asFibres(upperHalf(bore(tube), 1))
}
