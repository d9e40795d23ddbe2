import { describe, expect, it } from 'vitest'
import { seedFor, uniformStream, xoshiroWords } from '@/lib/core/statistics/random'

describe('seeded random numbers', () => {
  it('are the words of the published xoshiro128** generator', () => {
    // Reference implementation of Blackman and Vigna from state (1, 2, 3, 4); the first by hand: 2 * 5 = 10, turned left by 7 = 1280, * 9 = 11520
    expect(xoshiroWords([1, 2, 3, 4], 4)).toEqual([11520, 0, 5927040, 70819200])
  })

  it('are seeded by splitmix32, as worked out with whole numbers in another language', () => {
    const words = (seed: number, count: number) => {
      const next = uniformStream(seed)
      return Array.from({ length: count }, () => next() * 2 ** 32 - 0.5)
    }
    expect(words(42, 3)).toEqual([660444221, 3652823732, 77672526])
    expect(words(0, 2)).toEqual([1789933344, 44971166])
  })

  it('are the same for the same seed and others for another', () => {
    const draw = (seed: number): number[] => {
      const next = uniformStream(seed)
      return [next(), next(), next()]
    }
    expect(draw(7)).toEqual(draw(7))
    expect(draw(7)).not.toEqual(draw(8))
  })

  it('are uniform: mean 1/2, variance 1/12, neighbours unrelated, within four standard errors', () => {
    const next = uniformStream(2024)
    const draws = Array.from({ length: 100_000 }, next)
    const mean = draws.reduce((a, b) => a + b) / draws.length
    const variance = draws.reduce((sum, u) => sum + (u - 0.5) ** 2, 0) / draws.length
    const neighbours =
      draws.slice(1).reduce((sum, u, i) => sum + (u - 0.5) * ((draws[i] ?? 0) - 0.5), 0) / draws.length
    const root = Math.sqrt(draws.length)
    expect(Math.abs(mean - 0.5)).toBeLessThan((4 * Math.sqrt(1 / 12)) / root)
    expect(Math.abs(variance - 1 / 12)).toBeLessThan((4 * Math.sqrt(1 / 180)) / root)
    expect(Math.abs(neighbours)).toBeLessThan(4 / 12 / root)
    expect(Math.min(...draws)).toBeGreaterThan(0)
    expect(Math.max(...draws)).toBeLessThan(1)
  })

  it('name their streams by FNV-1a', () => {
    // FNV-1a 32-bit test vectors: "" 0x811c9dc5, "a" 0xe40c292c, "foobar" 0xbf9cf968
    expect(seedFor(0, '')).toBe(0x811c9dc5)
    expect(seedFor(0, 'a')).toBe(0xe40c292c)
    expect(seedFor(0, 'foobar')).toBe(0xbf9cf968)
  })

  it('refuse a seed that is no whole number and a state of zeros', () => {
    expect(() => uniformStream(0.5)).toThrow(RangeError)
    expect(() => xoshiroWords([0, 0, 0, 0], 1)).toThrow(RangeError)
  })
})
