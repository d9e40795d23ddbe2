'use client'

import { useSyncExternalStore } from 'react'
import { Button, LinkButton } from './_ui/button'
import { Notice } from './_ui/notice'

export default function ScreenError({
  error,
  reset,
}: {
  error: Error & { digest?: string }
  reset: () => void
}) {
  const requestId = useSyncExternalStore(neverChanges, lastRequestId, () => '')
  return (
    <main className="shell-main shell-main-narrow">
      <Notice
        kind="stop"
        title="This screen broke"
        alert
        actions={
          <>
            <Button kind="primary" onClick={reset}>
              Try again
            </Button>
            <LinkButton href="/">Go to today</LinkButton>
          </>
        }
      >
        <p>The fault is in the program, not in what you did. What was saved before is still there.</p>
        {error.digest && (
          <p className="muted">
            If you report it, name <span className="mono">{error.digest}</span>
            {requestId && (
              <>
                {' '}
                and the request <span className="mono">{requestId}</span>
              </>
            )}
            .
          </p>
        )}
      </Notice>
    </main>
  )
}

const neverChanges = () => () => {}

/** The id the server gave the last page it was asked for; the log has it on every line of that request. */
function lastRequestId(): string {
  const entries = [...performance.getEntriesByType('navigation'), ...performance.getEntriesByType('resource')]
  const named = entries
    .sort((a, b) => a.startTime - b.startTime)
    .flatMap((entry) => (entry as PerformanceResourceTiming).serverTiming ?? [])
    .filter(({ name }) => name === 'request')
  return named.at(-1)?.description ?? ''
}
