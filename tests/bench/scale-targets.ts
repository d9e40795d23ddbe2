import { randomBytes } from 'node:crypto'
import type { SpecInput } from '@/lib/core/spec/contract'
import { readings } from './fifty-loggers'
import type { ScaleShop } from './scale-shop'

/** What is measured of a shop: the app's address, the bare server's, and how far apart they may be. */
export type Target = {
  name: string
  app: string
  bare: string | null
  /** At most so many times the bare server's median. */
  overBare: number | null
  /** At most so long, where that is the aim. */
  mostMs?: number
  body?: () => string
}

const pageLimit = 8
const dataLimit = 3

const rail: SpecInput = {
  tube: { shape: 'square', widthMm: 38.1, heightMm: 38.1, wallMm: 3.175 },
  material: { id: '6061-T4' },
  bends: [
    { straightBeforeMm: 400, angleDeg: 32, centrelineRadiusMm: 300, rotationDeg: 0 },
    { straightBeforeMm: 500, angleDeg: 45, centrelineRadiusMm: 300, rotationDeg: 90 },
  ],
  straightAfterMm: 400,
  method: { support: 'hollow' },
  press: { capacityKn: 200, supportSpanMm: 520, supportNoseRadiusMm: 20 },
}

let asked = 0
/** A strength of its own each time: neither server may answer from what it remembers. */
const anotherRail = (): SpecInput => ({
  ...rail,
  material: { id: '6061-T4', yieldMPa: 140 + (asked++ % 100_000) * 1e-4 },
})

export function targetsOf(shop: ScaleShop): Target[] {
  // Entered by the first sending; every other one is answered with what is kept.
  const keptTry = JSON.stringify(
    readings(shop.freshCodes.at(-1) ?? '', 1, randomBytes(16).toString('base64url')),
  )
  const page = (name: string, app: string, bare: string): Target => ({
    name,
    app,
    bare,
    overBare: pageLimit,
  })
  const search = (name: 'number' | 'customer' | 'part') =>
    page(
      `search by ${name}`,
      `/jobs?q=${encodeURIComponent(shop.searches[name])}`,
      `/${name}?q=${encodeURIComponent(`%${shop.searches[name]}%`)}`,
    )
  return [
    page('job list', '/jobs', '/jobs'),
    search('number'),
    search('customer'),
    search('part'),
    page('part page', `/parts/${shop.partId}`, `/partPage?q=${shop.partId}`),
    page('job page', `/jobs/${shop.jobId}`, `/jobPage?q=${shop.jobId}`),
    page('bench screen', `/bench/${shop.scanCode}`, `/bench?q=${shop.scanCode}`),
    {
      name: 'data: a bend spec',
      app: '/api/spec',
      bare: '/spec',
      overBare: dataLimit,
      body: () => JSON.stringify(anotherRail()),
    },
    {
      name: 'data: a kept try sent again',
      app: '/api/bench',
      bare: '/again',
      overBare: dataLimit,
      body: () => keptTry,
    },
    {
      name: 'data: tube of an estimate',
      app: '/api/estimate',
      bare: null,
      overBare: null,
      body: () => JSON.stringify(estimateOf(shop)),
    },
    {
      name: 'traveller PDF',
      app: `/jobs/${shop.jobId}/traveller.pdf`,
      bare: null,
      overBare: null,
      mostMs: 300,
    },
  ]
}

/** An estimate as its form sends it to learn how the tube would be cut. */
function estimateOf(shop: ScaleShop) {
  return {
    revisionId: String(shop.revisionId),
    mark: '',
    way: 'hollow',
    quantities: '1, 5, 20',
    yieldPct: '85',
    yieldReason: '',
    holeCount: '0',
    weldedEndCount: '0',
    dyePenetrant: false,
    buyable: [{ lengthMm: '240 in', priceCents: '120' }],
    tools: [],
    overrides: [],
    rateOverrides: [],
    pricingBy: 'margin',
    pricingPct: '30',
  }
}
