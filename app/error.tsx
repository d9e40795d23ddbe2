'use client'

import { Button, LinkButton } from './_ui/button'
import { Notice } from './_ui/notice'

export default function ScreenError({
  error,
  reset,
}: {
  error: Error & { digest?: string }
  reset: () => void
}) {
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
            If you report it, name <span className="mono">{error.digest}</span>.
          </p>
        )}
      </Notice>
    </main>
  )
}
