import { chasedForm, declinedForm, orderedForm, quotedForm, sendAsksForm } from '@/lib/records/ask/schema'
import { chaseAsk, giveUpAsk, logDecline, logOrder, logQuote, sendAsks } from '@/lib/records/ask/write'
import { newSourceForm } from '@/lib/records/source/schema'
import { addSource } from '@/lib/records/source/write'
import type { Actor } from '@/lib/server/session'

type Units = Parameters<typeof newSourceForm>[0]

/** Invented benders; any likeness is chance. */
const demoSources = [
  [
    'Heron Mandrel Works',
    'Olive Tranter',
    'Mandrel bending to 2 in, round and square',
    '2',
    '2',
    '6061, 6063, 304',
  ],
  ['Pintail Roll & Form', 'Sales desk', 'Three-roll bending, large radii', '8', '4', 'Steel, 6063-T5'],
  ['Cormorant Tube', 'Idris Vane', 'Rotary draw, round only', '2.5', '2', '304, 1020, 6063'],
  [
    'Lapwing Precision',
    'Bea Rundle',
    'CNC mandrel, short runs welcome',
    '1.5',
    '1.5',
    '6061-T4, 6082, titanium',
  ],
  ['Sandpiper Railings', 'Workshop', 'Rail and handrail, round', '4', '2', '304, 316'],
  ['Merlin Frame & Arc', 'Jonas Quayle', 'Frames, bends in T4 and ages afterwards', '3', '2', '6061, 6082'],
] as const

const dayMs = 86_400_000
const isoDay = (daysAhead: number) => new Date(Date.now() + daysAhead * dayMs).toISOString().slice(0, 10)

type Answer = {
  prices: readonly (readonly [quantity: string, each: string])[]
  tooling: string
  setUp: string
  minimum: string
  freight: string
  /** What the tube we give them comes to, a piece. */
  supplied?: string
  lead: string
  /** Days from today that the prices hold; negative: they have run out. */
  holds: number
  radius: string
  conditions: string
  reject: string
  replaces: boolean
  order?: { pieces: string; ordered: number; promised: number; delivered: number; rejected: string }
}

type Outcome =
  | { is: 'waiting' | 'silent' | 'chased' }
  | { is: 'declined'; why: string }
  | ({ is: 'quoted' } & Answer)

/** Which part (by its place in the list of parts) is asked of which benders, how many days ago, and what came of it. */
const demoAsks: readonly {
  part: number
  quantities: string
  daysAgo: number
  to: readonly (readonly [source: number, outcome: Outcome])[]
}[] = [
  {
    part: 0,
    quantities: '1/5/20',
    daysAgo: 24,
    to: [
      [0, { is: 'declined', why: 'no die for square tube at 12 in radius' }],
      [2, { is: 'silent' }],
      [
        5,
        {
          is: 'quoted',
          prices: [
            ['1', '310.00'],
            ['5', '148.00'],
            ['20', '92.50'],
          ],
          tooling: '420.00',
          setUp: '60.00',
          minimum: '350.00',
          freight: '55.00',
          supplied: '34.00',
          lead: '20',
          holds: 12,
          radius: '14',
          conditions: 'Bends in T4 and ages to T6 afterwards; we supply the tube.',
          reject: '5',
          replaces: false,
        },
      ],
      [3, { is: 'waiting' }],
    ],
  },
  {
    part: 17,
    quantities: '24',
    daysAgo: 40,
    to: [
      [
        4,
        {
          is: 'quoted',
          prices: [['24', '64.00']],
          tooling: '0',
          setUp: '45.00',
          minimum: '0',
          freight: '80.00',
          lead: '15',
          holds: -9,
          radius: '',
          conditions: '',
          reject: '4',
          replaces: true,
          order: { pieces: '24', ordered: -34, promised: -13, delivered: -8, rejected: '1' },
        },
      ],
      [1, { is: 'declined', why: 'radius too tight for our rolls' }],
    ],
  },
  {
    part: 18,
    quantities: '4/8',
    daysAgo: 6,
    to: [
      [2, { is: 'waiting' }],
      [4, { is: 'waiting' }],
    ],
  },
  { part: 24, quantities: '12', daysAgo: 20, to: [[3, { is: 'chased' }]] },
]

/** Benders and what was asked of them: one of each outcome, entered as the shop would. */
export async function loadDemoAsks(
  parts: readonly { revisionId: number }[],
  units: Units,
  owner: Actor,
): Promise<void> {
  const sourceIds: number[] = []
  for (const [name, contactText, canBendText, minimumRadiusRatio, maximumSizeMm, alloysText] of demoSources) {
    const typed = {
      name,
      contactText,
      email: '',
      phone: '',
      canBendText,
      minimumRadiusRatio,
      maximumSizeMm,
      alloysText,
      notesText: '',
    }
    sourceIds.push((await addSource(newSourceForm(units).parse(typed), owner)).id)
  }
  for (const { part, quantities, daysAgo, to } of demoAsks) {
    const revisionId = parts[part]?.revisionId
    if (revisionId === undefined) throw new RangeError(`the demo has no part ${part} to ask about`)
    for (const [source, outcome] of to) {
      const { ids } = await sendAsks(
        sendAsksForm.parse({
          revisionId,
          sourceIds: [String(sourceIds[source])],
          quantities,
          sentOn: isoDay(-daysAgo),
          chaseOn: isoDay(14 - daysAgo),
          notesText: '',
        }),
        owner,
      )
      await settle(ids[0] ?? 0, outcome, daysAgo, units, owner)
    }
  }
}

async function settle(id: number, outcome: Outcome, daysAgo: number, units: Units, owner: Actor) {
  const repliedOn = isoDay(4 - daysAgo)
  if (outcome.is === 'declined') {
    const declined = { id, version: 0, repliedOn, declineReason: outcome.why }
    await logDecline(declinedForm.parse(declined), owner)
  } else if (outcome.is === 'quoted') await answer(id, outcome, repliedOn, units, owner)
  else if (outcome.is !== 'waiting') {
    // Chased a week ago; the silent one was given up, the other is to be chased again today.
    const { version } = await chaseAsk(chasedForm.parse({ id, version: 0, chaseOn: isoDay(0) }), owner)
    if (outcome.is === 'silent') await giveUpAsk({ id, version }, owner)
  }
}

async function answer(id: number, quote: Answer, repliedOn: string, units: Units, owner: Actor) {
  const typed = {
    id,
    version: 0,
    repliedOn,
    prices: quote.prices.map(([quantity, unitCents]) => ({ quantity, unitCents })),
    toolingCents: quote.tooling,
    setUpCents: quote.setUp,
    minimumOrderCents: quote.minimum,
    freightCents: quote.freight,
    suppliedCentsPerPiece: quote.supplied ?? '0',
    leadTimeDays: quote.lead,
    validUntil: isoDay(quote.holds),
    offeredRadiusMm: quote.radius,
    conditionsText: quote.conditions,
    expectedRejectPct: quote.reject,
    replacesRejects: quote.replaces,
  }
  const { version } = await logQuote(quotedForm(units).parse(typed), owner)
  if (!quote.order) return
  const { pieces, ordered, promised, delivered, rejected } = quote.order
  const order = {
    id,
    version,
    orderedOn: isoDay(ordered),
    orderedQuantity: pieces,
    promisedOn: isoDay(promised),
    deliveredOn: isoDay(delivered),
    rejectedQuantity: rejected,
  }
  await logOrder(orderedForm.parse(order), owner)
}
