'use client'

import { useState, useTransition } from 'react'
import { Button } from './button'

/** Says what was done and takes it back. It stays until it is used or put away: nobody is hurried. */
export function UndoToast({
  message,
  onUndo,
  onDismiss,
  undoLabel = 'Undo',
}: {
  message: string
  /** Takes the act back; answers with a message where that is no longer possible. */
  onUndo: () => Promise<string | undefined> | string | undefined
  onDismiss: () => void
  undoLabel?: string
}) {
  const [refusal, setRefusal] = useState<string>()
  const [pending, startUndo] = useTransition()
  return (
    <div className="undo" role="status">
      <span>{refusal ?? message}</span>
      {refusal === undefined && (
        <Button
          pending={pending}
          onClick={() =>
            startUndo(async () => {
              const answer = await onUndo()
              if (answer === undefined) onDismiss()
              else setRefusal(answer)
            })
          }
        >
          {undoLabel}
        </Button>
      )}
      <Button onClick={onDismiss}>Close</Button>
    </div>
  )
}
