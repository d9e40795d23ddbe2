'use client'

import { useRouter } from 'next/navigation'
import { useState } from 'react'
import { PressAction } from '@/app/_shop/press-action'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { DateField, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { Notice } from '@/app/_ui/notice'
import { Section } from '@/app/_ui/section'
import type { QuoteStanding } from '@/lib/records/quote/rules'
import { followUpForm, lostForm } from '@/lib/records/quote/schema'
import {
  followUpAction,
  markLostAction,
  renewLinkAction,
  reviseQuoteAction,
  sendQuoteAction,
  withdrawQuoteAction,
} from '../actions'
import { type OfferedLine, WonForm } from './won-form'

type Press = { id: string; version: number }

/** What can be done with a quote as it stands. */
export function QuotePresses({
  press,
  standing,
  origin,
  followUpOn,
  lines,
  unsaved,
}: {
  press: Press
  standing: QuoteStanding
  origin: string
  followUpOn: string
  lines: readonly OfferedLine[]
  /** Something typed in the draft is not saved: it would not go out. */
  unsaved: boolean
}) {
  const [link, setLink] = useState<string | null>(null)
  const withLink = (action: typeof sendQuoteAction | typeof renewLinkAction) => async (input: Press) => {
    const outcome = await action(input)
    if (outcome.ok) setLink(`${origin}${outcome.value.linkPath}`)
    return outcome
  }
  // An accepted quote goes on with its jobs, under their own heading.
  if (standing === 'accepted') return null
  return (
    <div className="no-print">
      <Section title="Next step">
        {link && <CustomerLink link={link} />}
        <div className="row">
          {standing === 'draft' && unsaved && (
            <p className="strong">Save the draft first: what is typed and not saved would not go out.</p>
          )}
          {standing === 'draft' && !unsaved && (
            <PressAction
              kind="primary"
              label="Send: make the customer’s link"
              input={press}
              action={withLink(sendQuoteAction)}
            />
          )}
          {standing === 'sent' && (
            <>
              <PressAction label="Make a new link" input={press} action={withLink(renewLinkAction)} />
              <PressAction label="Withdraw" input={press} action={withdrawQuoteAction} />
            </>
          )}
          {(standing === 'sent' ||
            standing === 'lapsed' ||
            standing === 'declined' ||
            standing === 'withdrawn') && (
            <PressAction label="Revise and send again" input={press} action={reviseQuoteAction} />
          )}
        </div>
        {(standing === 'sent' || standing === 'lapsed') && (
          <div className="split split-even">
            <WonForm key={press.version} press={press} lines={lines} />
            <div className="stack">
              <LostForm press={press} />
              <FollowUpForm key={press.version} press={press} followUpOn={followUpOn} />
            </div>
          </div>
        )}
      </Section>
    </div>
  )
}

/** Shown once: only the link's hash is kept. */
function CustomerLink({ link }: { link: string }) {
  const [copied, setCopied] = useState(false)
  const copy = async () => {
    await navigator.clipboard.writeText(link)
    setCopied(true)
  }
  return (
    <Notice title="The customer’s link">
      <p>
        Copy it now into your message: it is not shown again. Whoever has it can read the quote and answer it.
      </p>
      <p className="mono" data-testid="customer-link">
        {link}
      </p>
      <Button onClick={() => void copy()}>{copied ? 'Copied' : 'Copy the link'}</Button>
    </Notice>
  )
}

function FollowUpForm({ press, followUpOn }: { press: Press; followUpOn: string }) {
  const router = useRouter()
  const { field, submit, status, saving } = useRecordForm({
    schema: followUpForm,
    start: { ...press, followUpOn },
    action: followUpAction,
    onSaved: () => router.refresh(),
  })
  return (
    <form method="post" onSubmit={submit} className="stack stack-tight" noValidate>
      <h3>Ask again later</h3>
      <DateField label="Follow up on" {...field('followUpOn')} />
      <div className="form-foot">
        <Button type="submit" pending={saving}>
          Set the day
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}

function LostForm({ press }: { press: Press }) {
  const { field, submit, status, saving } = useRecordForm({
    schema: lostForm,
    start: { ...press, lostReason: '' },
    action: markLostAction,
  })
  return (
    <form method="post" onSubmit={submit} className="stack stack-tight" noValidate>
      <h3>It is lost</h3>
      <TextField label="Lost: why?" {...field('lostReason')} />
      <div className="form-foot">
        <Button type="submit" pending={saving}>
          Mark as lost
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}
