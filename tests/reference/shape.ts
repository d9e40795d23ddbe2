import { Matrix } from 'ml-matrix'
import { bendsFromPoints, intersectionPoints, setbackMm } from '@/lib/core/geometry/centreline'
import { endWrapCurve, wrapHeightMm } from '@/lib/core/templates/end-wrap'
import { outsideCheck, printed } from '@/tests/support/outside-check'

const bends = [
  { straightBeforeMm: 179.289322, rotationDeg: 0, angleDeg: 45, centrelineRadiusMm: 50 },
  { straightBeforeMm: 162.553843, rotationDeg: 54.73561, angleDeg: 60, centrelineRadiusMm: 50 },
  { straightBeforeMm: 150.228862, rotationDeg: 119.496208, angleDeg: 66.906531, centrelineRadiusMm: 50 },
]
const straightAfterMm = 147.241905

/** Where the part ends, by a chain of 4 x 4 matrices that walks straights and arcs; a linear-algebra library multiplies. */
function endByMatrices(): readonly number[] {
  const turn = (angleDeg: number, axis: 'x' | 'z') => {
    const [c, s] = [Math.cos((angleDeg * Math.PI) / 180), Math.sin((angleDeg * Math.PI) / 180)]
    return axis === 'x'
      ? new Matrix([
          [1, 0, 0, 0],
          [0, c, -s, 0],
          [0, s, c, 0],
          [0, 0, 0, 1],
        ])
      : new Matrix([
          [c, -s, 0, 0],
          [s, c, 0, 0],
          [0, 0, 1, 0],
          [0, 0, 0, 1],
        ])
  }
  const shift = (x: number, y = 0) =>
    new Matrix([
      [1, 0, 0, x],
      [0, 1, 0, y],
      [0, 0, 1, 0],
      [0, 0, 0, 1],
    ])
  let at = Matrix.eye(4)
  for (const { straightBeforeMm, rotationDeg, angleDeg, centrelineRadiusMm: r } of bends) {
    const angle = (angleDeg * Math.PI) / 180
    at = at
      .mmul(shift(straightBeforeMm))
      .mmul(turn(rotationDeg, 'x'))
      .mmul(shift(r * Math.sin(angle), r * (1 - Math.cos(angle))))
      .mmul(turn(angleDeg, 'z'))
  }
  return at.mmul(shift(straightAfterMm)).getColumn(3)
}

export function geometryChecks(): void {
  const found = () =>
    bendsFromPoints(
      [
        [0, 0, 0],
        [200, 0, 0],
        [350, 150, 0],
        [350, 300, 150],
        [500, 300, 250],
      ],
      [50, 50, 50],
    )
  const byHand = { part: 'geometry', source: 'Unit vectors of a five-point part', kind: 'by hand' } as const
  for (const [index, name, angle, rotation, straight] of [
    [0, 'first', '45.000000', '0.000000', '179.289322'],
    [1, 'second', '60.000000', '54.735610', '162.553843'],
    [2, 'third', '66.906531', '119.496208', '150.228862'],
  ] as const) {
    const at = () => found().bends[index]
    outsideCheck(
      { ...byHand, claim: `Points to bends: ${name} angle`, ...printed(angle, 2), unit: '°' },
      () => at()?.angleDeg ?? Number.NaN,
    )
    if (index > 0)
      outsideCheck(
        { ...byHand, claim: `Points to bends: ${name} rotation`, ...printed(rotation, 2), unit: '°' },
        () => at()?.rotationDeg ?? Number.NaN,
      )
    outsideCheck(
      { ...byHand, claim: `Points to bends: ${name} straight`, ...printed(straight, 2), unit: 'mm' },
      () => at()?.straightBeforeMm ?? Number.NaN,
    )
  }
  for (const [axis, name, expected] of [
    [0, 'x', 500],
    [1, 'y', 300],
    [2, 'z', 250],
  ] as const) {
    outsideCheck(
      { ...byHand, claim: `Bends to points: ${name} of the end`, expected, tolerance: 2e-5, unit: 'mm' },
      () => intersectionPoints(bends, straightAfterMm).at(-1)?.[axis] ?? Number.NaN,
    )
    outsideCheck(
      {
        part: 'geometry',
        claim: `Bends to points: ${name} of the end, by matrices`,
        source: '4 × 4 matrices of the library ml-matrix',
        kind: 'independent',
        expected: Number((endByMatrices()[axis] ?? Number.NaN).toFixed(6)),
        tolerance: 1e-6,
        unit: 'mm',
      },
      () => intersectionPoints(bends, straightAfterMm).at(-1)?.[axis] ?? Number.NaN,
    )
  }
  const tangent = {
    part: 'geometry',
    source: 'Tangent of a circle, R tan(θ/2)',
    kind: 'closed form',
    unit: 'mm',
  } as const
  outsideCheck({ ...tangent, claim: 'Corner of 150 mm at 90° lies back', ...printed('150.000') }, () =>
    setbackMm({ angleDeg: 90, centrelineRadiusMm: 150 }),
  )
  outsideCheck({ ...tangent, claim: 'Corner of 100 mm at 30° lies back', ...printed('26.795') }, () =>
    setbackMm({ angleDeg: 30, centrelineRadiusMm: 100 }),
  )
}

export function templateChecks(): void {
  const wrap = () =>
    endWrapCurve({ shape: 'round', widthMm: 200, heightMm: 200 }, { kind: 'mitre', angleDeg: 45 }, 'far')
  const onRound = (radiusMm: number, phiDeg: number) =>
    [radiusMm * Math.cos((phiDeg * Math.PI) / 180), radiusMm * Math.sin((phiDeg * Math.PI) / 180)] as const
  const regina = {
    part: 'templates',
    source: 'University of Regina, Quandaries and Queries: a plane cut through a pipe',
    kind: 'published',
    unit: 'mm',
  } as const
  outsideCheck(
    { ...regina, claim: 'Pipe of radius 100 cut at 45°: length of the wrap, 200π', ...printed('628.319') },
    () => {
      const points = wrap()
      return (points.at(-1)?.[0] ?? 0) - (points[0]?.[0] ?? 0)
    },
  )
  outsideCheck(
    { ...regina, claim: 'Pipe of radius 100 cut at 45°: height of the wave', expected: 200, tolerance: 1e-6 },
    () => {
      const heights = wrap().map(([, y]) => y)
      return Math.max(...heights) - Math.min(...heights)
    },
  )
  for (const [phiDeg, text] of [
    [0, '24.1500'],
    [30, '20.9145'],
    [60, '12.0750'],
  ] as const)
    outsideCheck(
      {
        part: 'templates',
        claim: `48.3 mm tube cut at 45°: height at ${phiDeg}°`,
        source: 'Unrolled plane section, r tan(a) cos φ',
        kind: 'by hand',
        ...printed(text),
        unit: 'mm',
      },
      () => wrapHeightMm({ kind: 'mitre', angleDeg: 45 }, onRound(24.15, phiDeg)),
    )
  for (const [axesAngleDeg, axisOffsetMm, phiDeg, text] of [
    [90, 0, 0, '30.1500'],
    [90, 0, 45, '24.8478'],
    [90, 0, 90, '18.0499'],
    [60, 0, 0, '48.7572'],
    [60, 0, 45, '38.5509'],
    [60, 0, 135, '18.8325'],
    [60, 0, 180, '20.8712'],
    [90, 5, 45, '20.5340'],
    [90, 5, 90, '7.7006'],
    [90, 5, 270, '23.2873'],
  ] as const)
    outsideCheck(
      {
        part: 'templates',
        claim: `48.3 on 60.3 mm tube at ${axesAngleDeg}°, ${axisOffsetMm} mm off: saddle at ${phiDeg}°`,
        source: 'Generator of the branch put into the main cylinder’s equation',
        kind: 'independent',
        expected: Number(text),
        tolerance: 1e-4,
        unit: 'mm',
      },
      // The expected heights run from the crossing of the axes, the acute corner at 0: a radius over the sine away, the other way round.
      () =>
        30.15 / Math.sin((axesAngleDeg * Math.PI) / 180) -
        wrapHeightMm(
          { kind: 'saddle', onDiameterMm: 60.3, angleDeg: axesAngleDeg, acrossMm: axisOffsetMm },
          onRound(24.15, 180 - phiDeg),
        ),
    )
  outsideCheck(
    {
      part: 'templates',
      claim: 'Girth of a 38.1 mm square with 6.5 mm corners: 4 · 25.1 + 13π',
      source: 'Straights and quarter circles',
      kind: 'by hand',
      ...printed('141.2407'),
      unit: 'mm',
    },
    () =>
      endWrapCurve(
        { shape: 'square', widthMm: 38.1, heightMm: 38.1, cornerRadiusMm: 6.5 },
        { kind: 'mitre', angleDeg: 22.5 },
        'far',
      ).at(-1)?.[0] ?? Number.NaN,
  )
}
