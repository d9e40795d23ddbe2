import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { Button } from '@/app/_ui/button'
import { TextField } from '@/app/_ui/field'
import { Notice } from '@/app/_ui/notice'
import { PageHead } from '@/app/_ui/page-head'
import { PlainShell } from '@/app/_ui/shell'
import { demoIsPreselected, readSetUpState } from '@/lib/records/shop/read'
import { SetUpForm } from './set-up-form'

export const metadata: Metadata = { title: 'Set up the shop' }

export default async function SetUpPage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>
}) {
  const asked = (await searchParams).key
  const key = typeof asked === 'string' ? asked : ''
  const state = await readSetUpState(key)
  if (state === 'done') notFound()
  return (
    <PlainShell shopName="Bendwright" narrow={state === 'locked'}>
      <PageHead title="Set up the shop">
        {state === 'open' && 'Five minutes: the shop, how it writes its numbers, and your own account.'}
      </PageHead>
      {state === 'locked' ? (
        <KeyForm wrong={key !== ''} />
      ) : (
        <SetUpForm
          setupKey={key}
          timeZones={['UTC', ...Intl.supportedValuesOf('timeZone')]}
          begin={demoIsPreselected() ? 'demo' : 'empty'}
        />
      )}
    </PlainShell>
  )
}

function KeyForm({ wrong }: { wrong: boolean }) {
  return (
    <form method="get" className="stack">
      <Notice title="Nobody has an account here yet">
        <p>
          The start of the program printed an address with a key in it. Open that address, or type its key
          here. It shows that you are the one who started it.
        </p>
      </Notice>
      <TextField
        label="Set-up key"
        name="key"
        autoComplete="off"
        spellCheck={false}
        error={wrong ? 'This is not the key that the start printed' : undefined}
      />
      <div className="form-foot">
        <Button type="submit" kind="primary">
          Go on
        </Button>
      </div>
    </form>
  )
}
