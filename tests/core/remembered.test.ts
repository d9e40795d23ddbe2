import { describe, expect, it, vi } from 'vitest'
import { remembered } from '@/lib/core/remembered'

describe('a function that remembers', () => {
  it('asks once for questions alike, and anew for another', () => {
    const double = vi.fn(({ value }: { value: number }) => ({ twice: 2 * value }))
    const kept = remembered(double, 3)
    expect(kept({ value: 4 })).toBe(kept({ value: 4 }))
    expect(kept({ value: 5 })).toEqual({ twice: 10 })
    expect(double).toHaveBeenCalledTimes(2)
  })

  it('lets the answer go that was not asked for the longest, never more kept than allowed', () => {
    const own = vi.fn((value: number) => ({ value }))
    const kept = remembered(own, 2)
    for (const value of [1, 2, 1, 3]) kept(value)
    expect(own).toHaveBeenCalledTimes(3)
    kept(1)
    expect(own).toHaveBeenCalledTimes(3)
    kept(2)
    expect(own).toHaveBeenCalledTimes(4)
  })

  it('keeps no refusal', () => {
    const refuse = vi.fn((value: number) => {
      if (refuse.mock.calls.length === 1) throw new RangeError(`not ${value}`)
      return { value }
    })
    const kept = remembered(refuse, 2)
    expect(() => kept(1)).toThrow('not 1')
    expect(kept(1)).toEqual({ value: 1 })
  })

  it('keeps no promise that failed', async () => {
    const refuse = vi.fn(async (value: number) => {
      await Promise.resolve()
      if (refuse.mock.calls.length === 1) throw new RangeError(`not ${value}`)
      return { value }
    })
    const kept = remembered(refuse, 2)
    await expect(kept(1)).rejects.toThrow('not 1')
    await expect(kept(1)).resolves.toEqual({ value: 1 })
    await kept(1)
    expect(refuse).toHaveBeenCalledTimes(2)
  })
})
