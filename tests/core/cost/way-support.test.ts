import { describe, expect, it } from 'vitest'
import { waySupport } from '@/lib/core/cost/ways'

describe('what holds the tube in each way', () => {
  it('is the way’s own where its name says it, whatever is chosen beside', () => {
    const chosen = { support: 'sand', strap: true } as const
    expect(waySupport('hollow', chosen).support).toBe('hollow')
    expect(waySupport('lowMelt', chosen)).toEqual({ support: 'lowMelt', strap: false })
    expect(waySupport('lowMeltStrap', { strap: false })).toEqual({ support: 'lowMelt', strap: true })
    for (const way of ['mitredWelded', 'outside'] as const)
      expect(waySupport(way, chosen)).toEqual({ support: 'hollow', strap: false })
  })

  it('has a strap where one is chosen for a hollow tube or sand, and none by itself', () => {
    for (const way of ['hollow', 'sand'] as const) {
      expect(waySupport(way).strap).toBe(false)
      expect(waySupport(way, { strap: true }).strap).toBe(true)
    }
  })

  it('is chosen for ways that bend soft, the low-melt alloy where nobody says', () => {
    for (const way of ['t4ThenAged', 'annealedThenSolutionAged'] as const) {
      expect(waySupport(way)).toEqual({ support: 'lowMelt', strap: false })
      expect(waySupport(way, { support: 'hollow', strap: true })).toEqual({ support: 'hollow', strap: true })
    }
  })
})
