import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { DataTable } from '@/app/_ui/data-table'
import { PageHead } from '@/app/_ui/page-head'
import { Section } from '@/app/_ui/section'
import { FillerCautions } from '@/app/shop/fillers/filler-cautions'
import { formatNumber, formatTemperature, THIN_SPACE } from '@/lib/core/format'
import type { Filler, FillerField } from '@/lib/core/materials/low-melt'
import { densityBandKgM3 } from '@/lib/core/materials/mixture'
import { statusWords } from '@/lib/core/materials/provenance'
import { shopUnits } from '@/lib/core/shop-format'
import type { LengthUnit } from '@/lib/core/units'
import { readFillerOfTable, readPotsOf } from '@/lib/records/filler-alloy/read'
import { readShop } from '@/lib/records/shop/read'
import { may, requireActor } from '@/lib/server/session'
import { nameInAddress } from '../../name-in-address'
import { stressWords } from '../../value-text'
import { FillerAlloyForm } from '../filler-alloy-form'
import { RemoveFiller } from '../remove-filler'
import { typedFiller } from '../typed-filler'

export const metadata: Metadata = { title: 'Filler' }

type Value = { field: FillerField; words: string; text: string }

function valuesOf(filler: Filler, unit: LengthUnit): Value[] {
  const temperature = (temperatureC: number) =>
    formatTemperature(temperatureC, { unit: shopUnits[unit].temperature, decimals: 1 })
  const density = (densityKgM3: number) => `${formatNumber(densityKgM3, { decimals: 0 })}${THIN_SPACE}kg/m³`
  const specific = (jPerKgK: number) => `${formatNumber(jPerKgK, { decimals: 0 })}${THIN_SPACE}J/(kg·K)`
  const values: Value[] = [{ field: 'densityKgM3', words: 'Density', text: density(filler.densityKgM3) }]
  if (filler.publishedDensityKgM3 !== undefined) {
    const text = density(filler.publishedDensityKgM3)
    values.push({ field: 'publishedDensityKgM3', words: 'Density as published', text })
  }
  const modulus = stressWords(filler.elasticModulusMPa, unit)
  if (filler.kind === 'sand') {
    return [...values, { field: 'elasticModulusMPa', words: 'Modulus of the pack', text: modulus }]
  }
  const { low, high } = densityBandKgM3(filler.compositionPct)
  const made = Object.entries(filler.compositionPct).map(([symbol, pct]) => `${symbol} ${pct} %`)
  values[0] = {
    field: 'densityKgM3',
    words: 'Density',
    text:
      filler.sources.densityKgM3?.status === 'computed'
        ? `${density(filler.densityKgM3)}; real ones ${density(low)} to ${density(high)}`
        : density(filler.densityKgM3),
  }
  return [
    { field: 'compositionPct', words: 'Made of, by mass', text: made.join(', ') },
    { field: 'solidusC', words: 'Begins to melt', text: temperature(filler.solidusC) },
    { field: 'liquidusC', words: 'All molten', text: temperature(filler.liquidusC) },
    ...values,
    { field: 'yieldMPa', words: 'Yield', text: stressWords(filler.yieldMPa, unit) },
    { field: 'elasticModulusMPa', words: 'Elastic modulus', text: modulus },
    ...(filler.latentHeatKJPerKg === undefined
      ? []
      : [
          {
            field: 'latentHeatKJPerKg' as const,
            words: 'Latent heat',
            text: `${formatNumber(filler.latentHeatKJPerKg, { decimals: 1 })}${THIN_SPACE}kJ/kg`,
          },
        ]),
    {
      field: 'solidSpecificHeatJPerKgK',
      words: 'Specific heat, solid',
      text: specific(filler.solidSpecificHeatJPerKgK),
    },
    {
      field: 'liquidSpecificHeatJPerKgK',
      words: 'Specific heat, liquid',
      text: specific(filler.liquidSpecificHeatJPerKgK),
    },
    { field: 'growthNote', words: 'As it freezes', text: filler.growthNote },
  ]
}

export default async function FillerTablePage({ params }: { params: Promise<{ id: string }> }) {
  const actor = await requireActor('material.read')
  const id = nameInAddress((await params).id)
  const [shop, found] = await Promise.all([readShop(), id === null ? null : readFillerOfTable(id)])
  if (!found) notFound()
  const { filler, entry } = found
  const pots = await readPotsOf(filler.id)
  return (
    <>
      <PageHead
        kind={entry ? 'Filler of the shop’s own' : 'Filler of the table'}
        title={filler.name}
        trail={[
          { label: 'Materials', href: '/materials' },
          { label: 'Fillers', href: '/materials/fillers' },
        ]}
        actions={
          entry && may(actor, 'material.write') && <RemoveFiller id={filler.id} version={entry.version} />
        }
      >
        {filler.maxBoreNote}
      </PageHead>
      <div className="stack stack-loose">
        <FillerCautions alloy={filler} unit={shop.lengthUnit} />
        <Section title="Its values, and where each is from">
          <DataTable
            caption="Values with their sources"
            captionHidden
            rows={valuesOf(filler, shop.lengthUnit)}
            rowKey={({ field }) => field}
            columns={[
              { key: 'what', head: 'Value', title: true, cell: ({ words }) => words },
              { key: 'value', head: 'Number', cell: ({ text }) => text },
              {
                key: 'source',
                head: 'Source',
                cell: ({ field }) => filler.sources[field]?.source ?? 'not noted',
              },
              {
                key: 'status',
                head: 'How sure',
                cell: ({ field }) => {
                  const status = filler.sources[field]?.status
                  return status ? statusWords[status] : 'not noted'
                },
              },
            ]}
          />
        </Section>
        <Section title="In the shop">
          {pots.length === 0 ? (
            <p>
              No pot holds it.{' '}
              {may(actor, 'tooling.write') && (
                <Link href={`/shop/fillers/new?of=${encodeURIComponent(filler.id)}`}>Add a pot of it</Link>
              )}
            </p>
          ) : (
            <ul className="plain-list">
              {pots.map((pot) => (
                <li key={pot.id}>
                  <Link href={`/shop/fillers/${pot.id}`}>
                    Pot {pot.shopNumber}, {pot.name}
                  </Link>
                </li>
              ))}
            </ul>
          )}
        </Section>
        {entry && may(actor, 'material.write') && (
          <FillerAlloyForm
            units={{ lengthUnit: shop.lengthUnit, currency: shop.currency }}
            start={typedFiller(entry.values, shop.lengthUnit)}
            version={entry.version}
          />
        )}
      </div>
    </>
  )
}
