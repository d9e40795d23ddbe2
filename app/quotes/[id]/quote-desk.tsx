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
  draft: Omit<ComponentProps<typeof QuoteForm>, 'onUnsaved' | 'onVersion'> | null
  presses: Omit<ComponentProps<typeof QuotePresses>, 'unsaved'> | null
  children: ReactNode
}) {
  const [unsaved, setUnsaved] = useState(false)
  const [savedVersion, setSavedVersion] = useState(0)
  const press = presses && {
    ...presses.press,
    version: Math.max(presses.press.version, savedVersion),
  }
  return (
    <>
      {draft ? (
        <QuoteForm
          key={draft.lines.map(({ id }) => id).join()}
          {...draft}
          onUnsaved={setUnsaved}
          onVersion={setSavedVersion}
        />
      ) : (
        children
      )}
      {presses && press && <QuotePresses {...presses} press={press} unsaved={draft !== null && unsaved} />}
    </>
  )
}
