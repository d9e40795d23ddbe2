'use client'

import { useState } from 'react'
import { PressAction } from '@/app/_shop/press-action'
import { UndoToast } from '@/app/_ui/undo-toast'

type Press = { id: number; version: number }
type Outcome = { ok: true; value: { version: number } } | { ok: false; message: string }

/** Puts a record away, or brings it back; right after putting it away, one press undoes it. */
export function PutAway({
  what,
  record,
  archived,
  archive,
  restore,
}: {
  what: string
  record: Press
  archived: boolean
  archive: (press: Press) => Promise<Outcome>
  restore: (press: Press) => Promise<Outcome>
}) {
  const [undoable, setUndoable] = useState<Press | null>(null)
  const putAway = async (press: Press) => {
    const outcome = await archive(press)
    if (outcome.ok) setUndoable({ id: press.id, version: outcome.value.version })
    return outcome
  }
  const undo = async () => {
    if (undoable === null) return undefined
    const outcome = await restore(undoable)
    return outcome.ok ? undefined : outcome.message
  }
  return (
    <>
      {archived ? (
        <PressAction key="back" label={`Bring this ${what} back`} input={record} action={restore} />
      ) : (
        <PressAction
          key="away"
          label={`Put this ${what} away`}
          kind="quiet"
          input={record}
          action={putAway}
        />
      )}
      {undoable !== null && archived && (
        <UndoToast
          message={`The ${what} is put away: out of lists, nothing lost.`}
          onUndo={undo}
          onDismiss={() => setUndoable(null)}
        />
      )}
    </>
  )
}
