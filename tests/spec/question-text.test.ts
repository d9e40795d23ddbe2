import { describe, expect, it } from 'vitest'
import {
  mostQuestionBytes,
  mostQuestionDepth,
  nestingDepth,
  readBounded,
  readQuestionText,
} from '@/app/api/spec/question-text'

const bytes = (text: string) => new TextEncoder().encode(text)

describe('a question sent as text', () => {
  it('is read as JSON', () => {
    expect(readQuestionText(bytes('{"bends":[{"angleDeg":30}]}'))).toEqual({
      ok: true,
      json: { bends: [{ angleDeg: 30 }] },
    })
  })

  it('is refused with its path, what was met and what is allowed where it is not JSON', () => {
    for (const text of ['', '{', '{"a":1,}', 'NaN', '{"a":1}x']) {
      const read = readQuestionText(bytes(text))
      expect(read).toMatchObject({
        ok: false,
        status: 400,
        faults: [{ path: 'the whole question', allowed: 'one JSON object' }],
      })
    }
  })

  it('is refused where its bytes are no UTF-8', () => {
    // RFC 3629: FF and FE never stand in UTF-8.
    expect(readQuestionText(new Uint8Array([0x22, 0xff, 0xfe, 0x22]))).toMatchObject({
      ok: false,
      status: 400,
    })
  })

  it('may nest as deep as the limit and no deeper', () => {
    const nested = (depth: number) => '['.repeat(depth) + ']'.repeat(depth)
    expect(readQuestionText(bytes(nested(mostQuestionDepth)))).toMatchObject({ ok: true })
    expect(readQuestionText(bytes(nested(mostQuestionDepth + 1)))).toMatchObject({ ok: false, status: 400 })
    expect(readQuestionText(bytes(nested(400_000)))).toMatchObject({ ok: false, status: 400 })
  })

  it('has braces inside text counted as text, escaped quotes included', () => {
    expect(nestingDepth(String.raw`{"a":"[[[\"{{{"}`)).toBe(1)
    expect(nestingDepth('{"a":[{}]}')).toBe(3)
  })

  it('is refused past its size', () => {
    const read = readQuestionText(bytes(`"${'a'.repeat(mostQuestionBytes)}"`))
    expect(read).toMatchObject({ ok: false, status: 413 })
  })
})

describe('a body that never ends', () => {
  it('is left off at the limit', async () => {
    let sent = 0
    const endless = new ReadableStream<Uint8Array>({
      pull(controller) {
        sent += 1
        controller.enqueue(new Uint8Array(1000))
      },
    })
    expect(await readBounded(endless, 10_000)).toBeNull()
    expect(sent).toBeLessThan(20)
  })

  it('is handed over whole below it, in whatever pieces it came', async () => {
    const parts = new ReadableStream<Uint8Array>({
      start(controller) {
        controller.enqueue(bytes('{"a"'))
        controller.enqueue(bytes(':1}'))
        controller.close()
      },
    })
    expect(new TextDecoder().decode((await readBounded(parts, 100)) ?? undefined)).toBe('{"a":1}')
    expect(await readBounded(null, 100)).toEqual(new Uint8Array(0))
  })
})
