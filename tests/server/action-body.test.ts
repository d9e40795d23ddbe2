import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { isReadableActionForm, isReadableActionText } from '@/lib/server/action-body'

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
    ['a whole number longer than any, which no form sends', `["$n${'9'.repeat(400)}"]`],
    ['no list of arguments', '{"name":"Kestrel"}'],
    ['a reference to a part that is not there', '[{"unitCents":"$1,234.56"}]'],
    ['a function of the server’s', '["$F1"]'],
    ['more arguments than any action takes', '[{},{},{}]'],
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

type Parts = readonly (readonly [name: string, value: string | File])[]
const formOf = (parts: Parts) => {
  const form = new FormData()
  for (const [name, value] of parts) form.append(name, value)
  return form
}
const id = '7f00aa'
const drawing = new File(['%PDF-1.7'], 'arm.pdf')
const plain: Parts = [
  ['$ACTION_REF_1', ''],
  ['$ACTION_1:0', `{"id":"${id}","bound":"$@1"}`],
  ['$ACTION_1:1', '[{"code":"bad-input","typed":{"login":"mara"}}]'],
  ['$ACTION_KEY', 'k1'],
  ['login', 'mara'],
]

describe('The body of an action that came in parts', () => {
  it.each<[string, boolean, Parts]>([
    [
      'a form with a file',
      true,
      [
        ['_1_partId', '4'],
        ['_1_file', drawing],
        ['0', '["$K1"]'],
      ],
    ],
    [
      'what was answered last, and a form',
      true,
      [
        ['_1_login', 'mara'],
        ['0', '[null,"$K1"]'],
      ],
    ],
    ['a form posted before the scripts are there', false, plain],
    ['a form of which the action takes nothing', false, [[`$ACTION_ID_${id}`, '']]],
    ['a form that names no action', false, [['login', 'mara']]],
  ])('is read: %s', (_what, namedInHeader, parts) => {
    expect(isReadableActionForm(formOf(parts), namedInHeader)).toBe(true)
  })

  it.each<[string, boolean, Parts]>([
    ['nothing', true, []],
    ['a file in place of the arguments', true, [['0', drawing]]],
    ['a reference to a part that is not there', true, [['0', '["$1"]']]],
    ['a reference to itself', true, [['0', '["$0"]']]],
    [
      'a way through the prototype',
      true,
      [
        ['1', '{}'],
        ['0', '["$1:__proto__:then"]'],
      ],
    ],
    [
      'parts that no form has',
      true,
      [
        ['0', '["$K1"]'],
        ['2', '"$0"'],
      ],
    ],
    [
      'two beginnings',
      true,
      [
        ['0', '["$K1"]'],
        ['0', '["$K1"]'],
      ],
    ],
    [
      'a name that ends a line',
      true,
      [
        ['0', '["$K1"]'],
        ['_1_a\nb', 'x'],
      ],
    ],
    [
      'a name longer than the head of a part may be',
      true,
      [
        ['0', '["$K1"]'],
        ['_1_file', new File(['%PDF-1.7'], 'a'.repeat(20_000))],
      ],
    ],
    ['an action without its own words', false, [['$ACTION_REF_1', '']]],
    ['an action bound to a part that is not there', false, [...plain.slice(0, 2), ['$ACTION_1:1', '["$2"]']]],
    ['two actions at once', false, [...plain, [`$ACTION_ID_${id}`, '']]],
  ])('is turned away: %s', (_what, namedInHeader, parts) => {
    expect(isReadableActionForm(formOf(parts), namedInHeader)).toBe(false)
  })
})
