'use client'

import { useState } from 'react'
import { Button } from '@/app/_ui/button'
import { TextArea } from '@/app/_ui/field'
import { type FormState, FormStatus } from '@/app/_ui/form-status'

/** The message to send, to copy or to open in the mail program. */
export function CopyText({ text, mailHref }: { text: string; mailHref: string }) {
  const [status, setStatus] = useState<FormState>({ state: 'idle' })
  const copy = async () => {
    // Browsers give no clipboard to a page that came without TLS from another machine.
    const done = await navigator.clipboard?.writeText(text).then(
      () => true,
      () => false,
    )
    setStatus(
      done
        ? { state: 'saved', message: 'Copied' }
        : { state: 'refused', message: 'This browser does not let a page copy: mark the text and copy it.' },
    )
  }
  return (
    <div className="stack">
      <TextArea label="Message" value={text} rows={10} readOnly />
      <div className="row">
        <Button onClick={() => void copy()}>Copy the message</Button>
        <a className="button" href={mailHref}>
          Open in mail
        </a>
        <FormStatus status={status} />
      </div>
    </div>
  )
}
