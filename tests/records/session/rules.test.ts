import { describe, expect, it } from 'vitest'
import { ownSitePath, waitAfterFailuresS, waitInWords } from '@/lib/records/session/rules'

describe('The wait after failed sign-ins', () => {
  // By hand: free up to 4 failures; then 30 s doubled with each further one, 900 s at most.
  it('is nothing for the first four, then 30 s, doubled each time, up to a quarter of an hour', () => {
    expect([1, 4, 5, 6, 7, 8, 9, 10, 11, 60].map((count) => waitAfterFailuresS(count, 5))).toEqual([
      0, 0, 30, 60, 120, 240, 480, 900, 900, 900,
    ])
  })

  it('is told rounded up', () => {
    expect([0.2, 29.1, 60, 61, 899].map(waitInWords)).toEqual([
      '1 second',
      '30 seconds',
      '1 minute',
      '2 minutes',
      '15 minutes',
    ])
  })
})

describe('Where signing in leads', () => {
  it('is a page of this site', () => {
    expect(ownSitePath('/jobs/7?tab=bends#2')).toBe('/jobs/7?tab=bends#2')
  })

  it.each([
    'https://elsewhere.example',
    '//elsewhere.example',
    '/\\elsewhere.example',
    '/\t/elsewhere.example',
    '/./\\elsewhere.example',
    'javascript:alert(1)',
    'jobs',
    '',
    '/sign-in?then=/x',
    '/setup',
    '/..//elsewhere.example',
  ])('is the first page for %j', (then) => {
    expect(ownSitePath(then)).toBe('/')
  })
})
