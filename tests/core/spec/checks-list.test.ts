import fs from 'node:fs'
import { describe, expect, it } from 'vitest'
import { outsideChecks } from '@/lib/core/spec/checks-list'

describe('the list of outside checks shown to the shop', () => {
  it.each(outsideChecks.map((check) => [check.claim, check] as const))(
    '%s: the test has it',
    (_claim, check) => {
      const text = fs.readFileSync(check.testFile, 'utf8')
      expect(text).toContain(check.found)
    },
  )

  it('names each check once, and calls memory and practice by their names', () => {
    expect(new Set(outsideChecks.map(({ claim }) => claim)).size).toBe(outsideChecks.length)
    for (const { found, kind } of outsideChecks) {
      if (/from memory/.test(found)) expect(kind).toBe('memory')
      if (/no source/.test(found)) expect(kind).toBe('practice')
    }
  })
})
