'use client'

import { PressAction } from '@/app/_shop/press-action'
import { retireAction } from './actions'

type Kind = 'press' | 'die' | 'strap' | 'filler'

/** Out of use, and back again by the same press. */
export function RetirePress({ kind, tool }: { kind: Kind; tool: { id: number; retiredAt: Date | null } }) {
  const retired = tool.retiredAt === null
  return (
    <PressAction
      key={String(retired)}
      label={retired ? 'Retire' : 'Back into use'}
      kind={retired ? 'stop' : 'plain'}
      input={{ kind, id: tool.id, retired }}
      action={retireAction}
    />
  )
}
