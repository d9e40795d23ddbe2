'use client'

import { useActionState } from 'react'
import { Button } from '@/app/_ui/button'
import { CheckField, FieldGroup, SelectField, TextField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { offeredCurrencies } from '@/lib/records/shop/schema'
import { setUpAction } from './actions'

const demoName = 'Tidewrack Fabrication'

export function SetUpForm({
  setupKey,
  timeZones,
  begin,
}: {
  setupKey: string
  timeZones: readonly string[]
  begin: 'demo' | 'empty'
}) {
  const [state, action, pending] = useActionState(setUpAction, null)
  const typed = (name: string, first: string) => state?.typed[name] ?? first
  const begins = typed('begin', begin)
  return (
    // A refusal brings the form anew with what was typed, because React empties it after each post.
    <form action={action} className="stack stack-loose" noValidate key={JSON.stringify(state?.typed)}>
      <input type="hidden" name="key" value={setupKey} />
      <FieldGroup legend="Begin with">
        <CheckField
          type="radio"
          name="begin"
          value="demo"
          label={`The demo shop, ${demoName}`}
          hint="Invented customers, parts, quotes and jobs to look round in. One press removes them later."
          defaultChecked={begins === 'demo'}
        />
        <CheckField
          type="radio"
          name="begin"
          value="empty"
          label="An empty shop"
          hint="Your own presses, dies and stock first."
          defaultChecked={begins !== 'demo'}
        />
      </FieldGroup>
      <FieldGroup legend="The shop">
        <TextField
          label="Name of the shop"
          name="name"
          maxLength={80}
          autoComplete="organization"
          defaultValue={typed('name', begin === 'demo' ? demoName : '')}
          error={state?.fields.name}
          hint="Stands on every quote and traveller"
        />
        <SelectField
          label="Lengths in"
          name="lengthUnit"
          defaultValue={typed('lengthUnit', 'in')}
          choices={[
            { value: 'in', label: 'inches' },
            { value: 'mm', label: 'millimetres' },
          ]}
          hint="What a number without a unit means; the other can always be typed"
        />
        <SelectField
          label="Money in"
          name="currency"
          defaultValue={typed('currency', 'USD')}
          choices={offeredCurrencies.map((code) => ({ value: code, label: code }))}
          error={state?.fields.currency}
        />
        <SelectField
          label="Paper"
          name="paper"
          defaultValue={typed('paper', 'letter')}
          choices={[
            { value: 'letter', label: 'Letter' },
            { value: 'a4', label: 'A4' },
          ]}
        />
        <SelectField
          label="Time zone"
          name="timeZone"
          defaultValue={typed('timeZone', 'America/New_York')}
          choices={timeZones.map((zone) => ({ value: zone, label: zone.replaceAll('_', ' ') }))}
          error={state?.fields.timeZone}
        />
      </FieldGroup>
      <FieldGroup legend="Your account, the owner’s">
        <TextField
          label="Your name"
          name="ownerName"
          maxLength={80}
          autoComplete="name"
          defaultValue={typed('ownerName', '')}
          error={state?.fields.ownerName}
        />
        <TextField
          label="Sign-in name"
          name="login"
          autoComplete="username"
          autoCapitalize="none"
          spellCheck={false}
          maxLength={60}
          defaultValue={typed('login', '')}
          error={state?.fields.login}
        />
        <TextField
          label="Password"
          name="password"
          type="password"
          autoComplete="new-password"
          maxLength={200}
          hint={state?.fields.password ? undefined : 'At least 10 characters: three or four words do well'}
          error={state?.fields.password}
        />
      </FieldGroup>
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={pending} pendingLabel="Setting up">
          Set up the shop
        </Button>
        <FormStatus status={statusOf(state, pending)} />
      </div>
    </form>
  )
}

function statusOf(state: { message: string } | null, pending: boolean) {
  if (pending) return { state: 'saving', message: 'Setting up. The demo shop takes a few seconds.' } as const
  return state ? ({ state: 'refused', message: state.message } as const) : ({ state: 'idle' } as const)
}
