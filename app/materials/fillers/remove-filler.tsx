'use client'

import { useRouter } from 'next/navigation'
import { PressAction } from '@/app/_shop/press-action'
import { removeFillerAlloyAction } from '../actions'

/** Takes an alloy of the shop's own off the table; it stays in the history. */
export function RemoveFiller({ id, version }: { id: string; version: number }) {
  const router = useRouter()
  return (
    <PressAction
      label="Remove"
      kind="stop"
      input={{ id, version }}
      action={async (input) => {
        const outcome = await removeFillerAlloyAction(input)
        if (outcome.ok) router.push('/materials/fillers')
        return outcome
      }}
    />
  )
}
