'use client'

import { useState } from 'react'
import { Button } from '@/app/_ui/button'
import { Notice } from '@/app/_ui/notice'
import { linkDays } from '@/lib/records/person/rules'

/** Mailed or not, the link is shown: a mail may end up anywhere. */
const titles: Readonly<Record<string, (name: string) => string>> = {
  sent: (name) => `The link is on its way to ${name} by mail. Here it is too, shown only now.`,
  failed: (name) => `The mail to ${name} could not be sent. Hand this link over. It is shown only now.`,
  'no-address': (name) => `${name} has no e-mail address here. Hand this link over. It is shown only now.`,
}

/** The one time a link can be read: after this screen only its hash is left. */
export function ShownLink({ linkPath, mailed, name }: { linkPath: string; mailed: string; name: string }) {
  const [copied, setCopied] = useState<'no' | 'yes' | 'failed'>('no')
  const address = linkPath.startsWith('/') ? `${window.location.origin}${linkPath}` : linkPath
  const copy = async () => {
    const done = await navigator.clipboard?.writeText(address).then(
      () => true,
      () => false,
    )
    setCopied(done ? 'yes' : 'failed')
  }
  return (
    <Notice
      kind="caution"
      alert
      title={titles[mailed]?.(name) ?? `Hand this link to ${name}. It is shown only now.`}
      actions={
        <>
          <Button onClick={() => void copy()}>Copy the link</Button>
          <span role="status">
            {copied === 'yes' && 'Copied'}
            {copied === 'failed' && 'The browser does not allow it: mark the link and copy it by hand'}
          </span>
        </>
      }
    >
      <p className="mono link-text">{address}</p>
      <p>
        It sets a password once and is good for {linkDays} days. Whoever has it can use it: give it by hand or
        by a message only they read.
      </p>
    </Notice>
  )
}
