'use client'

import Link from 'next/link'
import { useState } from 'react'
import { Button } from '@/app/_ui/button'
import { NumberField, SelectField } from '@/app/_ui/field'
import { Notice } from '@/app/_ui/notice'
import type { PriceRounding } from '@/lib/core/cost/money'
import { readNumber } from '@/lib/core/typed/number'
import type { Pricing } from '@/lib/records/estimate/rules'

/** Which estimate stands behind a line, and whether it still holds. */
export function EstimateOfLine({
  facts,
}: {
  facts: { estimate: { href: string; label: string; warning: string } | null; estimateHref: string }
}) {
  const { estimate } = facts
  if (!estimate) {
    return (
      <p className="small">
        <span className="muted">No estimate stands behind this line: what it costs is not known.</span>{' '}
        <Link href={facts.estimateHref}>Estimate it</Link>
      </p>
    )
  }
  return (
    <>
      <p className="small">
        Costs from the <Link href={estimate.href}>{estimate.label}</Link>.
      </p>
      {estimate.warning && (
        <Notice
          kind="caution"
          title={estimate.warning}
          actions={<Link href={facts.estimateHref}>Estimate it again</Link>}
        />
      )}
    </>
  )
}

/** Prices every quantity that has a cost by one margin or one markup; the prices can be changed one by one after. */
export function PriceBy({
  rounding,
  onPrice,
}: {
  rounding: PriceRounding
  onPrice: (pricing: Pricing) => void
}) {
  const [by, setBy] = useState<Pricing['by']>('margin')
  const [percent, setPercent] = useState('')
  const read = readNumber(percent)
  const most = by === 'margin' ? 95 : 1000
  const value = read.ok && read.value >= 0 && read.value <= most ? read.value : null
  return (
    <div className="fields">
      <SelectField
        label="Price all by"
        choices={[
          { value: 'margin', label: 'margin, a share of the price' },
          { value: 'markup', label: 'markup, a share on the cost' },
        ]}
        value={by}
        onChange={(event) => setBy(event.target.value === 'markup' ? 'markup' : 'margin')}
      />
      <NumberField
        label={by === 'margin' ? 'Margin, of the price' : 'Markup, on the cost'}
        unit="%"
        inputMode="decimal"
        value={percent}
        onChange={(event) => setPercent(event.target.value)}
        error={percent !== '' && value === null ? `A number from 0 to ${most}` : undefined}
        hint={rounding.stepCents > 1 ? 'Rounded as the shop’s rates say' : undefined}
      />
      <div className="field">
        <Button
          disabled={value === null || percent === ''}
          onClick={() => value !== null && onPrice({ by, ppm: Math.round(value * 10_000) })}
        >
          Set the prices
        </Button>
      </div>
    </div>
  )
}
