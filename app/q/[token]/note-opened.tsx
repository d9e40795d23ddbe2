'use client'

import { useEffect } from 'react'
import { noteOpenedAction } from './actions'

/** Says once that the quote stands before the customer. */
export function NoteOpened({ token }: { token: string }) {
  useEffect(() => {
    // Nothing hangs on it: the quote can be read and answered whether it was noted or not.
    noteOpenedAction(token).catch(() => undefined)
  }, [token])
  return null
}
