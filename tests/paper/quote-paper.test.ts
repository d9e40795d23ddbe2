import { createCanvas } from '@napi-rs/canvas'
import { describe, expect, it } from 'vitest'
import { quotePdf } from '@/app/quotes/quote-paper'
import type { QuoteSnapshot } from '@/lib/records/quote/rules'
import { pageCount, wholeText } from './read-pdf'

const long =
  'Both ends mitred to the customer’s drawing, deburred inside and out, packed in pairs with card between. '
const line = (position: number): QuoteSnapshot['lines'][number] => ({
  lineId: position,
  position,
  partNumber: `P-000${position}`,
  revision: 'A',
  customerRef: '',
  description: `${long}${'W'.repeat(120)}`,
  leadTimeDays: 21,
  breaks: Array.from({ length: 12 }, (_, index) => ({
    quantity: 1 + index * 10,
    unitCents: 41_250 - index * 500,
  })),
})
const quote: QuoteSnapshot = {
  number: 'Q-0012',
  issue: 1,
  sentOn: '2026-11-25',
  validUntil: '2026-12-25',
  shop: {
    name: 'Tidewrack Fabrication',
    addressText: '4 Slip Lane\nSaltmarsh',
    contactText: 'mara@tidewrack.example',
    paper: 'letter',
    timeZone: 'America/New_York',
  },
  customer: { name: 'Kestrel Harbour Works', addressText: 'Pier 4, Saltmarsh Quay' },
  currency: 'USD',
  taxName: 'Sales tax',
  taxPpm: 62_500,
  termsText: 'Net 30 days.',
  noteText: 'The starboard arm follows in January.',
  lines: [line(1), line(2), line(3)],
}

const textOf = async (answer: Response) =>
  (await wholeText(Buffer.from(await answer.arrayBuffer()))).replace(/\s+/g, ' ')

describe('The paper of a quote', () => {
  it('carries the shop’s logo, and goes out without one that cannot be read', async () => {
    const canvas = createCanvas(300, 90)
    canvas.getContext('2d').fillRect(20, 20, 200, 40)
    const bytes = async (content?: Uint8Array) => {
      const logo = content ? { content, mediaType: 'image/png' } : null
      return Buffer.from(await (await quotePdf(quote, { before: null, logo })).arrayBuffer())
    }
    const plain = await bytes()
    const drawn = await bytes(canvas.toBuffer('image/png'))
    expect(plain.includes('/Subtype /Image')).toBe(false)
    expect(drawn.includes('/Subtype /Image')).toBe(true)
    expect(await pageCount(drawn)).toBe(await pageCount(plain))
    const spoilt = canvas.toBuffer('image/png').subarray(0, 60)
    expect(await wholeText(await bytes(spoilt))).toContain('Tidewrack Fabrication')
  })

  it('has its own letterhead, the note to the customer, terms, tax, days and every one of twelve prices', async () => {
    const text = await textOf(await quotePdf(quote, { before: null }))
    for (const said of [
      'Tidewrack Fabrication',
      '4 Slip Lane',
      'Kestrel Harbour Works',
      'The starboard arm follows in January.',
      'Net 30 days.',
      'Sales tax of 6.25 %',
      '21 calendar days',
      'Dec 25, 2026',
      // By hand: 1 + 11 x 10 = 111 pieces at 412.50 - 11 x 5.00 = 357.50 are 39,682.50.
      '$357.50',
      '$39,682.50',
    ])
      expect(text).toContain(said)
    expect(text).not.toContain('Changed since')
  })

  it('loses nothing of names without a space, and goes on over pages', async () => {
    const answer = await quotePdf(quote, { before: null })
    const pdf = Buffer.from(await answer.arrayBuffer())
    expect(await pageCount(pdf)).toBeGreaterThan(1)
    const written = (await wholeText(pdf)).match(/W/g)?.length ?? 0
    // Three descriptions; the shop's page heads and the customer's name have a capital W or so each.
    expect(written).toBeGreaterThanOrEqual(3 * 120)
  })

  it('of a later issue says what changed since the one before', async () => {
    const after = {
      ...quote,
      issue: 2,
      lines: [{ ...line(1), breaks: [{ quantity: 1, unitCents: 40_000 }] }],
    }
    const before = { ...quote, lines: [{ ...line(1), breaks: [{ quantity: 1, unitCents: 41_250 }] }] }
    const text = await textOf(await quotePdf(after, { before }))
    expect(text).toContain('each from 1: $400.00, was $412.50.')
  })

  it('is the same to the byte whenever it is asked for', async () => {
    const [one, other] = await Promise.all([
      quotePdf(quote, { before: null }),
      quotePdf(quote, { before: null }),
    ])
    expect(Buffer.from(await one.arrayBuffer()).equals(Buffer.from(await other.arrayBuffer()))).toBe(true)
  })
})
