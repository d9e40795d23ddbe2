import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { isReadableActionText } from '@/lib/server/action-body'

describe('The body of an action that came as one text', () => {
  it.each([
    ['a form', '[{"name":"Kestrel","version":0}]'],
    ['a price that begins with a dollar sign, as React writes it', '[{"unitCents":"$$84.50"}]'],
    ['nothing where nothing was typed', '[{"askId":"$undefined"}]'],
    ['a day', '[{"at":"$D2026-11-25T00:00:00.000Z"}]'],
  ])('is read: %s', (_what, text) => {
    expect(isReadableActionText(text)).toBe(true)
  })

  it.each([
    ['no JSON', '{"name":'],
    ['no list of arguments', '{"name":"Kestrel"}'],
    ['a reference to a part that is not there', '[{"unitCents":"$1,234.56"}]'],
    ['a function of the server’s', '["$F1"]'],
    ['nested without end', `${'['.repeat(500)}${']'.repeat(500)}`],
  ])('is turned away: %s', (_what, text) => {
    expect(isReadableActionText(text)).toBe(false)
  })

  it('of strings that React escaped is always read', () => {
    fc.assert(
      fc.property(fc.array(fc.string()), (strings) => {
        const sent = strings.map((text) => (text.startsWith('$') ? `$${text}` : text))
        return isReadableActionText(JSON.stringify([sent]))
      }),
    )
  })
})
