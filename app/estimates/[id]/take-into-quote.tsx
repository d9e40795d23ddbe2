'use client'

import { useRouter } from 'next/navigation'
import { useWatch } from 'react-hook-form'
import { useRecordForm } from '@/app/_shop/use-record-form'
import { Button } from '@/app/_ui/button'
import { DataTable } from '@/app/_ui/data-table'
import { NumberField, SelectField } from '@/app/_ui/field'
import { FormStatus } from '@/app/_ui/form-status'
import { moneyText } from '@/app/_ui/money'
import { quoteEstimateAction } from '@/app/parts/_estimate/actions'
import { marginAndMarkup, type PriceRounding } from '@/lib/core/cost/money'
import { formatPercent } from '@/lib/core/format'
import { type PricedQuantity, priceOfCost } from '@/lib/records/estimate/rules'
import { quoteEstimateForm } from '@/lib/records/estimate/schema'

/** The prices that a margin or a markup makes, seen before they go into a quote. */
export function TakeIntoQuote({
  start,
  drafts,
  quantities,
  rounding,
  currency,
}: {
  start: { estimateId: string; quoteId: string; pricingBy: 'margin' | 'markup'; pricingPct: string }
  drafts: readonly { id: number; number: string }[]
  quantities: readonly PricedQuantity[]
  rounding: PriceRounding
  currency: string
}) {
  const router = useRouter()
  const { form, field, submit, status, saving } = useRecordForm({
    schema: quoteEstimateForm,
    start,
    action: quoteEstimateAction,
    onSaved: ({ quoteId }) => router.push(`/quotes/${quoteId}`),
  })
  const typed = useWatch({ control: form.control })
  const parsed = quoteEstimateForm.safeParse(typed)
  const pricing = parsed.success ? parsed.data.pricing : null
  return (
    <form method="post" onSubmit={submit} className="stack" noValidate>
      <div className="fields">
        <SelectField
          label="Into"
          choices={[
            { value: '', label: 'a new quote' },
            ...drafts.map(({ id, number }) => ({ value: String(id), label: `draft ${number}` })),
          ]}
          {...field('quoteId')}
        />
        <SelectField
          label="Price by"
          choices={[
            { value: 'margin', label: 'margin, a share of the price' },
            { value: 'markup', label: 'markup, a share on the cost' },
          ]}
          {...field('pricingBy')}
        />
        <NumberField
          label={typed.pricingBy === 'markup' ? 'Markup, on the cost' : 'Margin, of the price'}
          unit="%"
          inputMode="decimal"
          {...field('pricingPct')}
        />
      </div>
      {pricing && (
        <DataTable
          caption="Prices that go into the quote"
          captionHidden
          rows={quantities.map((one) => ({
            ...one,
            unitPriceCents: priceOfCost(one.unitCostCents, pricing, rounding),
          }))}
          rowKey={({ pieceCount }) => String(pieceCount)}
          columns={[
            {
              key: 'count',
              head: 'From',
              unit: 'pieces',
              title: true,
              cell: ({ pieceCount }) => String(pieceCount),
            },
            { key: 'cost', head: 'Cost each', cell: (row) => moneyText(row.unitCostCents, currency) },
            { key: 'price', head: 'Price each', cell: (row) => moneyText(row.unitPriceCents, currency) },
            {
              key: 'margin',
              head: 'Margin, of the price',
              cell: (row) => share(marginAndMarkup(row.unitCostCents, row.unitPriceCents).marginFraction),
            },
            {
              key: 'markup',
              head: 'Markup, on the cost',
              cell: (row) => share(marginAndMarkup(row.unitCostCents, row.unitPriceCents).markupFraction),
            },
          ]}
        />
      )}
      <div className="form-foot">
        <Button type="submit" kind="primary" pending={saving}>
          Take into the quote
        </Button>
        <FormStatus status={status} />
      </div>
    </form>
  )
}

const share = (fraction: number | null) => (fraction === null ? '–' : formatPercent(fraction))
