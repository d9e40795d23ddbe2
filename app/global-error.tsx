'use client'

import './globals.css'
import { Button } from './_ui/button'
import { Notice } from './_ui/notice'

export default function GlobalError({ reset }: { error: Error & { digest?: string }; reset: () => void }) {
  return (
    <html lang="en">
      <body>
        <title>Something broke · Bendwright</title>
        <main className="shell-main shell-main-narrow">
          <Notice
            kind="stop"
            title="The program broke"
            alert
            actions={
              <Button kind="primary" onClick={reset}>
                Try again
              </Button>
            }
          >
            What was saved before is still there.
          </Notice>
        </main>
      </body>
    </html>
  )
}
