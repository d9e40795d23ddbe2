'use client'

import { type ComponentProps, type ReactNode, useState } from 'react'
import { QuoteForm } from './quote-form'
import { QuotePresses } from './quote-presses'

/** A quote with what can be done with it; a draft that is not saved yet cannot be sent. */
export function QuoteDesk({
  draft,
  presses,
  children,
}: {
  /** Null where it is not to be edited: then the children show it. */
  draft: Omit<ComponentProps<typeof QuoteForm>, 'onUnsaved'> | null
  presses: Omit<ComponentProps<typeof QuotePresses>, 'unsaved'> | null
  children: ReactNode
}) {
  const [unsaved, setUnsaved] = useState(false)
  return (
    <>
      {draft ? (
        <QuoteForm key={draft.lines.map(({ id }) => id).join()} {...draft} onUnsaved={setUnsaved} />
      ) : (
        children
      )}
      {presses && <QuotePresses {...presses} unsaved={draft !== null && unsaved} />}
    </>
  )
}
