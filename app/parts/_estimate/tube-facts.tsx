import { Notice } from '@/app/_ui/notice'
import { Facts } from '@/app/_ui/section'
import { NestAnswer } from '@/app/stock/nest/nest-result'
import type { StartsOutlook } from '@/lib/core/cost/estimate'
import type { ShopRates } from '@/lib/core/cost/shop-rates'
import { formatLength, formatMass, formatPercent } from '@/lib/core/format'
import { shopUnits } from '@/lib/core/shop-format'
import type { TubePlan } from '@/lib/core/stock/tube-plan'
import type { LengthUnit } from '@/lib/core/units'
import type { WayBasis } from '@/lib/core/ways/way-basis'

/** How long a piece is sawn, how the pieces lie in the bars, and what to buy. */
export function TubeFacts({
  basis,
  tube,
  rackNames,
  starts,
  kerfMm,
  units,
}: {
  basis: WayBasis
  tube: TubePlan | null
  rackNames: Readonly<Record<string, string>>
  starts: StartsOutlook
  kerfMm: number
  units: { lengthUnit: LengthUnit; currency: string }
}) {
  const length = (mm: number) => formatLength(mm, units.lengthUnit)
  const { length: sawn } = basis
  return (
    <div className="stack">
      {sawn && (
        <Facts
          facts={[
            basis.sawnPieces.length === 1 && basis.way !== 'mitredWelded'
              ? [
                  'One piece off the saw',
                  `${length(sawn.sawnMm)}: developed ${length(sawn.developedMm)}, grips ${length(sawn.gripStartMm)} and ${length(sawn.gripEndMm)}, trim ${length(sawn.trimMm)}${sawn.cutReachMm > 0 ? `, slanted ends ${length(sawn.cutReachMm)}` : ''}`,
                ]
              : [
                  'Straights of one piece',
                  basis.sawnPieces
                    .map(({ lengthMm, pieceCount }) => `${pieceCount} of ${length(lengthMm)}`)
                    .join(', '),
                ],
            ['Each cut takes', length(kerfMm)],
            ['Tube', basis.materialId ?? 'the part’s own material'],
            [
              'Cut for',
              `${starts.likely} starts, the number to expect; each start more is counted by the metre`,
            ],
          ]}
        />
      )}
      {tube ? (
        <NestAnswer
          input={tube.input}
          result={tube.result}
          rackName={(key) => rackNames[key] ?? key}
          shown={{ ...units, showPrices: true }}
        />
      ) : (
        <Notice title="The cutting is being planned">Until then the tube is counted by the metre.</Notice>
      )}
    </div>
  )
}

/** The filler a job pours, against what the pot holds. */
export function FillerFacts({
  basis,
  pot,
  pieceCount,
  starts,
  rates,
  lengthUnit,
}: {
  basis: WayBasis
  pot: { shopNumber: string; name: string; inPotKg: number } | null
  pieceCount: number
  starts: StartsOutlook
  rates: ShopRates
  lengthUnit: LengthUnit
}) {
  if (!basis.filler) return null
  const unit = shopUnits[lengthUnit].mass
  const mass = (kg: number) => formatMass(kg, { unit })
  const together = Math.min(starts.likely, rates.times.piecesPerFilling)
  const pouredKg = together * basis.filler.massKg
  const lostKg = starts.likely * basis.filler.massKg * rates.fillerLossFraction.likely
  const shortKg = pot ? pouredKg - pot.inPotKg : 0
  return (
    <div className="stack stack-tight">
      <Facts
        facts={[
          ['Filler in one piece', mass(basis.filler.massKg)],
          [
            'Poured at once',
            `${mass(pouredKg)} for ${together} ${together === 1 ? 'piece' : 'pieces'} filled together`,
          ],
          [
            'In the pot',
            pot ? `${mass(pot.inPotKg)} in ${pot.shopNumber}, ${pot.name}` : 'no pot of low-melt alloy',
          ],
          [
            `Lost over ${pieceCount}`,
            `${mass(lostKg)}, ${formatPercent(rates.fillerLossFraction.likely)} of each pour`,
          ],
        ]}
      />
      {pot && shortKg > 0 && (
        <Notice kind="caution" title={`The pot is ${mass(shortKg)} short of one filling`}>
          Buy alloy, or fill fewer pieces together: the rates say how many.
        </Notice>
      )}
      {pot && shortKg <= 0 && pot.inPotKg - lostKg < basis.filler.massKg && (
        <Notice title="What is lost on this job may leave the pot below one piece" />
      )}
    </div>
  )
}
