/**
 * The bend model worked out the plain way, for checking and for measuring against: thin strips for every integral, the stress
 * by Newton's method at every strip, bisection for every root, one inside the other. Slow, short, and shares no code with lib/core.
 */
export interface PlainBend {
  readonly shape: 'round' | 'rectangular'
  readonly widthMm: number
  readonly heightMm: number
  readonly wallMm: number
  readonly cornerRadiusMm: number
  readonly elasticModulusMPa: number
  readonly yieldMPa: number
  readonly exponent: number
  readonly filler?: { readonly modulusMPa: number; readonly yieldMPa: number }
  readonly strap?: {
    readonly thicknessMm: number
    readonly widthMm: number
    readonly yieldMPa: number
    readonly frictionCoeff: number
  }
  readonly spanMm: number
  readonly noseRadiusMm: number
  readonly frictionCoeff: number
  readonly angleRad: number
  readonly radiusMm: number
}

type Strip = readonly [yMm: number, areaMm2: number]

const bisect = (f: (x: number) => number, low: number, high: number): number => {
  let [a, b] = [low, high]
  for (let turn = 0; turn < 36; turn++) {
    const middle = (a + b) / 2
    if (f(middle) < 0) a = middle
    else b = middle
  }
  return (a + b) / 2
}

function chord(y: number, widthMm: number, heightMm: number, radiusMm: number): number {
  const into = Math.abs(y) - (heightMm / 2 - radiusMm)
  if (Math.abs(y) > heightMm / 2) return 0
  return into <= 0 ? widthMm : widthMm - 2 * radiusMm + 2 * Math.sqrt(Math.max(radiusMm ** 2 - into ** 2, 0))
}

export function plainBend(given: PlainBend, stripCount = 400, armCount = 100, strokeCount = 41) {
  const {
    heightMm: h,
    widthMm: b,
    wallMm: t,
    elasticModulusMPa: modulus,
    yieldMPa,
    exponent: n,
    strap,
    filler,
  } = given
  const outer = given.shape === 'round' ? h / 2 : given.cornerRadiusMm
  const inner = Math.max(outer - t, 0)
  const strips = (heightMm: number, width: (y: number) => number): Strip[] =>
    Array.from({ length: stripCount }, (_, index) => {
      const y = -heightMm / 2 + (heightMm * (index + 0.5)) / stripCount
      return [y, (width(y) * heightMm) / stripCount]
    })
  const bore = (y: number) => chord(y, b - 2 * t, h - 2 * t, inner)
  const boreStrips = strips(h - 2 * t, bore)
  // The outside less the bore, each in its own strips: no strip lies across the wall's inner face.
  const tubeStrips: Strip[] = [
    ...strips(h, (y) => chord(y, b, h, outer)),
    ...boreStrips.map(([y, area]): Strip => [y, -area]),
  ]
  const inertia = tubeStrips.reduce((sum, [y, area]) => sum + y * y * area, 0)

  const stress = (strain: number): number => {
    const size = Math.abs(strain)
    let s = Math.min(modulus * size, yieldMPa * (size / 0.002) ** (1 / n))
    for (let turn = 0; turn < 40 && s > 0; turn++) {
      const plastic = 0.002 * (s / yieldMPa) ** n
      const move = (s / modulus + plastic - size) / (1 / modulus + (n * plastic) / s)
      s -= move
      if (Math.abs(move) < 1e-10 * s) break
    }
    return strain < 0 ? -s : s
  }
  const tube = (radiusMm: number, neutralMm: number) => {
    let [force, moment] = [0, 0]
    for (const [y, area] of tubeStrips) {
      const pull = stress((y - neutralMm) / (radiusMm + neutralMm)) * area
      force += pull
      moment += pull * y
    }
    return { force, moment }
  }
  const clamp = (value: number, limit: number) => Math.min(Math.max(value, -limit), limit)
  const fillerMoment = (k: number) =>
    filler
      ? boreStrips.reduce(
          (sum, [y, area]) => sum + clamp(filler.modulusMPa * k * y, filler.yieldMPa) * y * area,
          0,
        )
      : 0
  const strapMoment = (k: number, tension: number): number => {
    if (!strap || k <= 0) return 0
    const bent = k / (1 + k * (h / 2 + strap.thicknessMm / 2))
    const count = 200
    const at = (middle: number) => {
      let [force, moment] = [0, 0]
      for (let index = 0; index < count; index++) {
        const y = strap.thicknessMm * ((index + 0.5) / count - 0.5)
        const pull =
          (clamp(205_000 * (middle + bent * y), strap.yieldMPa) * strap.thicknessMm * strap.widthMm) / count
        force += pull
        moment += pull * y
      }
      return { force, moment }
    }
    if (tension === 0) return at(0).moment
    return at(bisect((middle) => at(middle).force - tension, -0.2, 0.2)).moment
  }
  const armCurve = (k: number) => tube(1 / k, 0).moment + fillerMoment(k) + strapMoment(k, 0)
  const ts = strap?.thicknessMm ?? 0
  const offset = h / 2 + ts + given.noseRadiusMm
  const lever = (radiusMm: number, phi: number) => {
    const free = (given.spanMm / 2 - (radiusMm + offset) * Math.sin(phi)) / Math.cos(phi)
    const a = strap ? ts / 2 : h / 2
    const g = free * Math.tan(phi) > a ? 1 : -1
    return { free, g, arm: free + g * given.frictionCoeff * a }
  }
  const balance = (radiusMm: number, phi: number) => {
    const { arm } = lever(radiusMm, phi)
    const at = (neutral: number) => {
      const bent = tube(radiusMm, neutral)
      const tension = strap ? -bent.force : 0
      const inside =
        bent.moment + fillerMoment(1 / radiusMm) + strapMoment(1 / radiusMm, Math.max(tension, 0))
      return { tension, moment: bent.moment, inside, external: inside + tension * (h / 2 + ts / 2) }
    }
    if (!strap) return { neutral: 0, ...at(0) }
    const most = strap.thicknessMm * strap.widthMm * strap.yieldMPa
    const neutral = bisect(
      (y) => at(y).tension - Math.min((strap.frictionCoeff * at(y).external) / arm, most),
      0,
      h / 2,
    )
    return { neutral, ...at(neutral) }
  }
  const force = (radiusMm: number, phi: number) => {
    const { g, arm } = lever(radiusMm, phi)
    return (
      (2 * balance(radiusMm, phi).external * (Math.cos(phi) + g * given.frictionCoeff * Math.sin(phi))) / arm
    )
  }
  /** What comes back at the press: tube and filler unload together, the filler may yield the other way. */
  const pressRecovery = (k: number, tubeMoment: number): number => {
    if (!filler) return tubeMoment / (modulus * inertia)
    const left = (x: number) => modulus * inertia * x + 2 * fillerMoment(x / 2) - tubeMoment - fillerMoment(k)
    return bisect(left, 0, 2 * k)
  }
  const arms = (radiusMm: number, phi: number) => {
    const { inside } = balance(radiusMm, phi)
    const { free } = lever(radiusMm, phi)
    let [loaded, kept, atPress, bow] = [0, 0, 0, 0]
    for (let index = 0; index < armCount; index++) {
      // Closer together toward the end of contact, where the curvature of a tube that hardly hardens runs up steeply.
      const left = 1 - (index + 0.5) / armCount
      const share = 1 - left ** 3
      const piece = (3 * left ** 2 * free) / armCount
      const k = bisect((value) => armCurve(value) - share * inside, 1e-12, 1.05 / radiusMm)
      loaded += k * piece
      kept += (k - tube(1 / k, 0).moment / (modulus * inertia)) * piece
      atPress += (k - pressRecovery(k, tube(1 / k, 0).moment)) * piece
      bow += k * share * free * piece
    }
    return { loaded, kept, atPress, bow }
  }
  let radiusMm = given.radiusMm
  let phi = given.angleRad / 2
  for (let turn = 0; turn < 12; turn++) {
    const before = [radiusMm, phi] as const
    const { kept } = arms(radiusMm, phi)
    const { moment } = balance(radiusMm, phi)
    radiusMm = 1 / (1 / given.radiusMm + moment / (modulus * inertia))
    phi = ((given.angleRad - 2 * kept) * given.radiusMm) / (2 * radiusMm)
    if (Math.abs(radiusMm / before[0] - 1) < 1e-7 && Math.abs(phi - before[1]) < 1e-6) break
  }
  const { loaded, kept, atPress, bow } = arms(radiusMm, phi)
  const { free } = lever(radiusMm, phi)
  const held = 1 / radiusMm - pressRecovery(1 / radiusMm, balance(radiusMm, phi).moment)
  const degrees = 180 / Math.PI
  const forces = Array.from({ length: strokeCount }, (_, index) =>
    force(radiusMm, (phi * index) / (strokeCount - 1)),
  )
  return {
    loadedRadiusMm: radiusMm,
    wrappedAngleDeg: (phi * 360) / Math.PI,
    loadedAngleDeg: 2 * (phi + loaded) * degrees,
    angleAtPressDeg: 2 * (phi * radiusMm * held + atPress) * degrees,
    freeLengthMm: free,
    ramTravelMm: (radiusMm + offset) * (1 - Math.cos(phi)) + free * Math.sin(phi) + bow / Math.cos(phi),
    armKeptDeg: (kept * 180) / Math.PI,
    armLoadedDeg: (loaded * 180) / Math.PI,
    neutralAxisShiftMm: balance(radiusMm, phi).neutral,
    externalMomentNmm: balance(radiusMm, phi).external,
    pressForceKn: Math.max(...forces, (8 * inertia * yieldMPa) / (h * given.spanMm)) / 1000,
  }
}

/** What becomes of the section at a loaded radius, sections 7 and 8 of the bend model written down as they stand there. */
export function plainSection(
  given: PlainBend,
  bend: {
    readonly loadedRadiusMm: number
    readonly neutralMm: number
    readonly recovery: number
    readonly poisson: number
    readonly support:
      | { readonly kind: 'hollow' }
      | { readonly kind: 'sand'; readonly modulusMPa: number }
      | { readonly kind: 'lowMelt'; readonly modulusMPa: number; readonly yieldMPa: number }
  },
) {
  const { heightMm: h, widthMm: b, wallMm: t, elasticModulusMPa: modulus, yieldMPa, exponent } = given
  const { loadedRadiusMm: radius, neutralMm: yn, recovery, poisson, support } = bend
  const stress = (strain: number) => {
    const size = Math.abs(strain)
    return bisect((s) => s / modulus + 0.002 * (s / yieldMPa) ** exponent - size, 0, 10 * yieldMPa)
  }
  const strainAt = (y: number) => (y - yn) / (radius + yn)
  const face = (side: 1 | -1) => {
    const e = strainAt((side * h) / 2)
    const effective = 0.5 - ((0.5 - poisson) * stress(e)) / (modulus * Math.abs(e))
    const across = 1 - effective * e + (poisson * recovery * side * h) / 2
    const [free, held] = [t * across, t / (1 + e)]
    return {
      e,
      widthMm: b * across,
      wallMm: {
        low: Math.min(free, held),
        expected: given.shape === 'round' ? held : free,
        high: Math.max(free, held),
      },
    }
  }
  const [outer, inner] = [face(1), face(-1)]
  const flange = (side: 1 | -1) => {
    const y = (side * (h - t)) / 2
    const [e, s] = [Math.abs(strainAt(y)), stress(strainAt(y))]
    const p = (s * t) / (radius + y)
    const plate = ((s / e) * t ** 3) / 9
    return { p, sag: (((p * (b - t) ** 4) / plate) * (5 - (4 * (b - t)) / (b - t + (h - t)))) / 384 }
  }
  const isRound = given.shape === 'round'
  const r = (h - t) / 2
  const p = isRound ? (stress(inner.e) * t) / (radius - h / 2) : Math.max(flange(1).p, flange(-1).p)
  const alone = isRound ? (0.75 * r ** 5) / (radius ** 2 * t ** 2) : Math.max(flange(1).sag, flange(-1).sag)
  const stop =
    support.kind === 'hollow'
      ? Number.POSITIVE_INFINITY
      : (p * h) / (2 * support.modulusMPa) +
        (support.kind === 'sand' ? (h - 2 * t) * Math.max(strainAt(0), 0) : 0)
  const inward = Math.min(alone, stop)
  return {
    outerStrain: outer.e,
    innerStrain: inner.e,
    wallOutsideMm: outer.wallMm,
    wallInsideMm: inner.wallMm,
    widthOutsideMm: outer.widthMm,
    widthInsideMm: inner.widthMm,
    flangeSagMm: isRound ? null : inward,
    ovalityPct: isRound ? (400 * inward) / h : null,
    fillerBearing: support.kind === 'lowMelt' ? p / (3 * support.yieldMPa) : null,
  }
}
