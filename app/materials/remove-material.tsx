'use client'

import { useRouter } from 'next/navigation'
import { PressAction } from '@/app/_shop/press-action'
import { removeMaterialAction } from './actions'

/** Takes the shop's own values away; they stay in the history. */
export function RemoveMaterial({
  id,
  version,
  overTable,
}: {
  id: string
  version: number
  overTable: boolean
}) {
  const router = useRouter()
  return (
    <PressAction
      label={overTable ? 'Back to the table’s values' : 'Remove'}
      kind="stop"
      input={{ id, version }}
      action={async (input) => {
        const outcome = await removeMaterialAction(input)
        if (outcome.ok) router.push('/materials')
        return outcome
      }}
    />
  )
}
