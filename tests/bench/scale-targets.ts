import type { SpecInput } from '@/lib/core/spec/contract'
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

export function targetsOf(shop: ScaleShop): Target[] {
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
      body: () => JSON.stringify(rail),
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
