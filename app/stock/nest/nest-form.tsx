'use client'

import { useState } from 'react'
import { Button } from '@/app/_ui/button'
import { NumberField, SelectField } from '@/app/_ui/field'
import { Section } from '@/app/_ui/section'
import type { LengthUnit } from '@/lib/core/units'
import { mostNestRows } from '@/lib/records/stock/schema'
import type { NestTexts } from './nest-question'

type Fault = Readonly<Record<string, string>>

/** Asks for a cutting plan by its address: it can be bookmarked, sent on and gone back to. */
export function NestForm({
  lengthUnit,
  currency,
  tubes,
  texts,
  faults,
  showPrices,
}: {
  lengthUnit: LengthUnit
  currency: string
  tubes: readonly { value: string; label: string }[]
  texts: NestTexts
  faults: Fault
  showPrices: boolean
}) {
  const [pieceRows, setPieceRows] = useState(Math.max(3, texts.pieces.length))
  const [buyRows, setBuyRows] = useState(Math.max(1, texts.buyable.length))
  const rows = (count: number) => Array.from({ length: count }, (_, index) => index)
  return (
    <form method="get" action="/stock/nest" className="stack stack-loose" noValidate>
      <Section title="What to cut">
        <div className="stack">
          <div className="fields">
            <SelectField
              label="Tube"
              name="tube"
              placeholder="Choose"
              choices={tubes}
              defaultValue={texts.tube}
              error={faults.tube}
              wide
            />
          </div>
          {faults.pieces && <p className="stop-text">{faults.pieces}</p>}
          {rows(pieceRows).map((index) => (
            <div key={index} className="fields">
              <NumberField
                label={`Length ${index + 1}`}
                name="length"
                unit={lengthUnit}
                defaultValue={texts.pieces[index]?.lengthMm}
                error={faults[`pieces.${index}.lengthMm`]}
              />
              <NumberField
                label={`How many of length ${index + 1}`}
                name="count"
                inputMode="numeric"
                defaultValue={texts.pieces[index]?.pieceCount}
                error={faults[`pieces.${index}.pieceCount`]}
              />
            </div>
          ))}
          {pieceRows < mostNestRows && (
            <div className="row">
              <Button onClick={() => setPieceRows(pieceRows + 1)}>Add a length</Button>
            </div>
          )}
        </div>
      </Section>
      {showPrices && (
        <Section title="Lengths that can be bought">
          <div className="stack">
            {rows(buyRows).map((index) => (
              <div key={index} className="fields">
                <NumberField
                  label={`Bar ${index + 1}`}
                  name="buyLength"
                  unit={lengthUnit}
                  hint={index === 0 ? "Left empty: only from the rack. Feet too: 20'" : undefined}
                  defaultValue={texts.buyable[index]?.lengthMm}
                  error={faults[`buyable.${index}.lengthMm`]}
                />
                <NumberField
                  label={`Price of bar ${index + 1}`}
                  name="buyPrice"
                  unit={currency}
                  defaultValue={texts.buyable[index]?.priceCents}
                  error={faults[`buyable.${index}.priceCents`]}
                />
              </div>
            ))}
            {buyRows < 4 && (
              <div className="row">
                <Button onClick={() => setBuyRows(buyRows + 1)}>Add a bar</Button>
              </div>
            )}
          </div>
        </Section>
      )}
      <Section title="How it is cut">
        <div className="fields">
          <NumberField
            label="Kerf"
            name="kerfMm"
            unit={lengthUnit}
            hint="What the blade takes at each cut"
            defaultValue={texts.kerfMm}
            error={faults.kerfMm}
          />
          <NumberField
            label="Crop"
            name="endTrimMm"
            unit={lengthUnit}
            hint="Off the first end of each bar"
            defaultValue={texts.endTrimMm}
            error={faults.endTrimMm}
          />
          <NumberField
            label="Keep offcuts from"
            name="keepFromMm"
            unit={lengthUnit}
            hint="Shorter ones are scrap"
            defaultValue={texts.keepFromMm}
            error={faults.keepFromMm}
          />
          <NumberField
            label="What an offcut is worth"
            name="offcutWorthPct"
            unit="%"
            inputMode="decimal"
            hint="Of what its length cost; the shop’s own guess"
            defaultValue={texts.offcutWorthPct}
            error={faults.offcutWorthPct}
          />
        </div>
      </Section>
      <div className="form-foot">
        <Button type="submit" kind="primary">
          Plan the cutting
        </Button>
      </div>
    </form>
  )
}
