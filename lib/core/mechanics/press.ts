import type { BentTube } from '@/lib/core/mechanics/bent-tube'
import type { Trace } from '@/lib/core/mechanics/trace'

export type Press = Readonly<{
  supportSpanMm: number
  supportNoseRadiusMm: number
  supportFrictionCoeff: number
}>

/** Where the tube stands between the end of contact and the support. */
export type Lever = Readonly<{
  /** Free length from the end of contact to the support. */
  freeMm: number
  /** The lever of the support's normal force, friction in it: s + g mu a. */
  leverMm: number
  /** +1 or -1: which way the support's friction turns the moment. */
  sense: 1 | -1
  /** From the tube's centreline to the support's centre: h/2 + ts + rp. */
  offsetMm: number
}>

/** A lever that is written over, for the many points of a stroke: sixty a bend, and making an object for each takes as long as the rest. */
export type LeverRoom = { -readonly [Key in keyof Lever]: Lever[Key] }

/** The lever at half the wrapped angle, written into the room given; see `leverAt`. */
export function leverInto(
  room: LeverRoom,
  bent: BentTube,
  press: Press,
  radiusMm: number,
  phiRad: number,
): LeverRoom {
  const strapMm = bent.strap ? bent.strap.thicknessMm : 0
  const sine = Math.sin(phiRad)
  const cosine = Math.cos(phiRad)
  const armMm = bent.strap ? strapMm / 2 : bent.tube.heightMm / 2
  room.offsetMm = bent.tube.heightMm / 2 + strapMm + press.supportNoseRadiusMm
  room.freeMm = (press.supportSpanMm / 2 - (radiusMm + room.offsetMm) * sine) / cosine
  room.sense = (room.freeMm * sine) / cosine > armMm ? 1 : -1
  room.leverMm = room.freeMm + room.sense * press.supportFrictionCoeff * armMm
  return room
}

export function leverRoom(): LeverRoom {
  return { freeMm: 0, leverMm: 0, sense: 1, offsetMm: 0 }
}

/**
 * Free length and lever at half the wrapped angle.
 *   s = (L/2 - (R + d) sin phi) / cos phi,  d = h/2 + ts + rp;  lever = s + g mu a,  a = ts/2 with a strap else h/2,
 *   g = +1 if s tan phi > a else -1
 * Source: statics of a bar on two round supports. Exact. A length or lever at or under 0 means that the span is too short.
 */
export function leverAt(
  bent: BentTube,
  press: Press,
  radiusMm: number,
  phiRad: number,
  trace?: Trace,
): Lever {
  const lever = leverInto(leverRoom(), bent, press, radiusMm, phiRad)
  if (trace) recordLever(trace, lever, bent, press, radiusMm, phiRad)
  return lever
}

function recordLever(
  trace: Trace,
  lever: Lever,
  bent: BentTube,
  press: Press,
  radiusMm: number,
  phiRad: number,
): void {
  const { freeMm, leverMm, sense, offsetMm } = lever
  const armMm = bent.strap ? bent.strap.thicknessMm / 2 : bent.tube.heightMm / 2
  trace.step('freeLengthMm', {
    formula: 's = (L/2 - (R + d) sin phi) / cos phi,  d = h/2 + ts + rp',
    inputs: [
      ['L', press.supportSpanMm, 'mm'],
      ['R', radiusMm, 'mm', 'loadedRadiusMm'],
      ['d', offsetMm, 'mm'],
      ['phi', (phiRad * 180) / Math.PI, '°', 'wrappedAngleDeg'],
    ],
    value: freeMm,
    unit: 'mm',
    source: 'statics of a bar on two round supports',
    trust: 'exact',
  })
  trace.step('leverMm', {
    formula: 'lever = s + g mu a,  a = ts/2 with a strap else h/2,  g = +1 if s tan phi > a else -1',
    inputs: [
      ['s', freeMm, 'mm', 'freeLengthMm'],
      ['g', sense],
      ['mu', press.supportFrictionCoeff],
      ['a', armMm, 'mm'],
    ],
    value: leverMm,
    unit: 'mm',
    source: 'statics of a bar on two round supports',
    trust: 'exact',
  })
}

/**
 * Ram force from the moment at the end of contact, N.
 *   N = M_ext / (s + g mu a);  F = 2 N (cos phi + g mu sin phi)
 */
export function ramForceN(lever: Lever, press: Press, phiRad: number, momentNmm: number): number {
  const normalN = momentNmm / lever.leverMm
  return 2 * normalN * (Math.cos(phiRad) + lever.sense * press.supportFrictionCoeff * Math.sin(phiRad))
}

/**
 * Ram travel to half the wrapped angle, mm.
 *   R (1 - cos phi) + s sin phi + d (1 - cos phi) + bow / cos phi
 */
export function ramTravelMm(
  lever: Lever,
  radiusMm: number,
  phiRad: number,
  bowMm: number,
  trace?: Trace,
): number {
  const flat = 1 - Math.cos(phiRad)
  const travelMm =
    (radiusMm + lever.offsetMm) * flat + lever.freeMm * Math.sin(phiRad) + bowMm / Math.cos(phiRad)
  trace?.step('ramTravelMm', {
    formula: 'travel = R (1 - cos phi) + s sin phi + d (1 - cos phi) + bow / cos phi',
    inputs: [
      ['R', radiusMm, 'mm', 'loadedRadiusMm'],
      ['phi', (phiRad * 180) / Math.PI, '°', 'wrappedAngleDeg'],
      ['s', lever.freeMm, 'mm', 'freeLengthMm'],
      ['d', lever.offsetMm, 'mm'],
      ['bow', bowMm, 'mm', 'armBowMm'],
    ],
    value: travelMm,
    unit: 'mm',
    source: 'geometry of a bar on two round supports; the arm by beam plasticity',
    trust: 'mechanics',
  })
  return travelMm
}

/** The span at which the free length at full angle is one tube height: 2 ((R + d) sin phi + h cos phi). */
export function workingSpanMm(
  bent: BentTube,
  lever: Lever,
  radiusMm: number,
  phiRad: number,
  trace?: Trace,
): number {
  const { heightMm } = bent.tube
  const spanMm = 2 * ((radiusMm + lever.offsetMm) * Math.sin(phiRad) + heightMm * Math.cos(phiRad))
  trace?.step('workingSpanMm', {
    formula: 'span at which s = h: 2 ((R + d) sin phi + h cos phi)',
    inputs: [
      ['R', radiusMm, 'mm', 'loadedRadiusMm'],
      ['d', lever.offsetMm, 'mm'],
      ['phi', (phiRad * 180) / Math.PI, '°', 'wrappedAngleDeg'],
      ['h', heightMm, 'mm'],
    ],
    value: spanMm,
    unit: 'mm',
    source: 'geometry of a bar on two round supports',
    trust: 'exact',
  })
  return spanMm
}
