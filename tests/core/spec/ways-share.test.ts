import { expect, it } from 'vitest'
import { Trace } from '@/lib/core/mechanics/trace'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import type { SpecInput } from '@/lib/core/spec/contract'

const davit: SpecInput = {
  tube: { shape: 'round', widthMm: 48.3, heightMm: 48.3, wallMm: 3.2 },
  material: { id: '6061-T4' },
  bends: [{ straightBeforeMm: 400, angleDeg: 35, centrelineRadiusMm: 300, rotationDeg: 0 }],
  straightAfterMm: 400,
  method: { support: 'hollow' },
  press: { capacityKn: 150, supportSpanMm: 500, supportNoseRadiusMm: 15 },
}

// A traced answer is always worked out anew; whatever else was asked before must not show in a plain one.
const anew = (input: SpecInput) => bendSpec(input, new Trace())

it('gives each way its own answer, whichever way of the part was asked before it', () => {
  const sand: SpecInput = { ...davit, method: { support: 'sand' } }
  const strapped: SpecInput = {
    ...davit,
    method: { support: 'sand', strap: { thicknessMm: 1.5, widthMm: 40, yieldMPa: 350 } },
  }
  const wider: SpecInput = { ...davit, press: { ...davit.press, supportSpanMm: 520 } }
  const soft: SpecInput = { ...davit, springbackFactor: 0.9 }
  const onDie: SpecInput = { ...davit, die: { surfaceRadiusMm: 250 } }
  for (const asked of [davit, sand, strapped, wider, soft, onDie, davit, sand])
    expect(bendSpec(asked)).toEqual(anew(asked))
})

it('finds hollow and sand-filled alike in force and angle, and not in what the wall does', () => {
  const [hollow] = bendSpec(davit).bends
  const [sand] = bendSpec({ ...davit, method: { support: 'sand' } }).bends
  expect(sand?.pressForceKn).toBe(hollow?.pressForceKn)
  expect(sand?.loadedAngleDeg).toBe(hollow?.loadedAngleDeg)
  // Only a hollow tube goes oval freely.
  expect(hollow?.ovalityPct).toBeGreaterThan(sand?.ovalityPct ?? 0)
})
