import fs from 'node:fs'
import path from 'node:path'
import { expect, it } from 'vitest'
import { isWithin, type OutsideCheck, type OutsideResult } from '@/lib/core/spec/outside-check'

/** Shown to the shop at /numbers; made by these tests and by nothing else. */
const resultsFile = path.join(import.meta.dirname, '../../app/numbers/outside-results.json')
const recording = process.env.BENDWRIGHT_RECORD_CHECKS === '1'

const registered: string[] = []
const found: OutsideResult[] = []

const nameOf = ({ part, claim, source }: OutsideCheck) => `${part}: ${claim} (${source})`
/** Twelve digits: another processor may differ in the last ones of sixteen. */
const rounded = (value: number) => Number(value.toPrecision(12))

/** Registers a test that the program's number meets one from outside, and a row of what /numbers shows. */
export function outsideCheck(check: OutsideCheck, got: () => number | Promise<number>): void {
  registered.push(nameOf(check))
  it(nameOf(check), async () => {
    const result = { ...check, got: await got() }
    found.push({ ...result, got: rounded(result.got) })
    expect(
      isWithin(result),
      `${result.got} ${check.unit} is not ${check.expected} ± ${check.tolerance} ${check.unit}`,
    ).toBe(true)
  })
}

/** Half a unit in the last printed digit, or so many halves of it. */
export function printed(text: string, halves = 1): { expected: number; tolerance: number } {
  const places = text.split('.')[1]?.length ?? 0
  return { expected: Number(text), tolerance: Number((halves * 0.5 * 10 ** -places).toPrecision(6)) }
}

/** Within so many percent of what is expected. */
export const within = (expected: number, percent: number): { expected: number; tolerance: number } => ({
  expected,
  tolerance: Number(((Math.abs(expected) * percent) / 100).toPrecision(4)),
})

/** Registers the last test: the file that /numbers shows has exactly these rows, with the numbers that came out now. */
export function checksAreAsShown(): void {
  it('shows every check once, as it came out now', () => {
    expect(new Set(registered).size, 'two checks of one name').toBe(registered.length)
    expect(found.length, 'run all checks together').toBe(registered.length)
    if (recording) {
      expect(found.filter((result) => !isWithin(result)).map(nameOf), 'outside their tolerance').toEqual([])
      fs.writeFileSync(resultsFile, `${JSON.stringify(found, null, 2)}\n`)
    }
    const shown: OutsideResult[] = JSON.parse(fs.readFileSync(resultsFile, 'utf8'))
    const now = new Map(found.map((result) => [nameOf(result), result]))
    const advice = 'run BENDWRIGHT_RECORD_CHECKS=1 npx vitest run tests/reference'
    expect(
      shown.map(nameOf).filter((name) => !now.has(name)),
      `no test makes these: ${advice}`,
    ).toEqual([])
    expect(
      registered.filter((name) => !shown.some((row) => nameOf(row) === name)),
      advice,
    ).toEqual([])
    for (const { got: was, ...row } of shown) {
      const { got, ...check } = now.get(nameOf(row)) ?? { got: Number.NaN }
      expect(row, advice).toEqual(check)
      expect(Math.abs(was - got), `${nameOf(row)} was ${was}, is ${got}: ${advice}`).toBeLessThanOrEqual(
        1e-6 * Math.max(Math.abs(row.expected), row.tolerance),
      )
    }
  })
}
