'use client'

import { useDeferredValue, useMemo } from 'react'
import { formatAngle } from '@/lib/core/format'
import type { SpecInput } from '@/lib/core/spec/contract'
import { afterTrialPieces, specUncertainty, usualTrial } from '@/lib/core/spec/uncertainty'

/** What to load to, what to expect then, and what two trial pieces make of it; worked out after the plain answer is shown. */
export function AimExpect({
  input,
  index,
  aimDeg,
  factorSd,
}: {
  input: SpecInput
  index: number
  aimDeg: number
  factorSd: number | null
}) {
  const asked = useDeferredValue(JSON.stringify(input))
  const spreads = useMemo(
    () =>
      specUncertainty(
        JSON.parse(asked) as SpecInput,
        factorSd === null ? {} : { springbackFactor: factorSd },
      ),
    [asked, factorSd],
  )
  const spread = spreads[index]
  if (!spread) return null
  const angle = (deg: number) => formatAngle(deg, { decimals: 1 })
  const { angleAtPressDeg: atPress, finalAngleDeg: final } = spread
  const { nextPieceSdDeg } = afterTrialPieces({ sdDeg: final.sd, ...usualTrial })
  const filled = input.method.support === 'lowMelt'
  return (
    <p className="prose">
      <strong>Aim for {angle(aimDeg)} loaded.</strong> Expect {angle(atPress.low)} to {angle(atPress.high)}{' '}
      {filled
        ? `at the press and ${angle(final.low)} to ${angle(final.high)} after melt-out`
        : 'with the ram backed off'}
      , 19 times in 20 on a first piece. Two trial pieces of the same lot, measured, bring the next one to ±
      {angle(2 * nextPieceSdDeg)}.
    </p>
  )
}
