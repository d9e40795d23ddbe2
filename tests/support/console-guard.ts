import { afterEach, beforeEach, vi } from 'vitest'

/** What React and libraries complain about goes to console.error; a test that causes such a complaint has failed. */
beforeEach(() => {
  vi.spyOn(console, 'error')
})

afterEach(() => {
  const complaints = vi.isMockFunction(console.error) ? vi.mocked(console.error).mock.calls : []
  vi.restoreAllMocks()
  if (complaints.length > 0)
    throw new Error(`console.error was called: ${complaints.map((args) => args.join(' ')).join('\n')}`)
})
