import { Facts } from '@/app/_ui/section'
import { shopFormat } from '@/lib/core/shop-format'
import type { LengthUnit } from '@/lib/core/units'
import type { JobPlan } from '@/lib/records/job/rules'
import type { BenchPiece } from '@/lib/records/piece/read'

/** What stands on the press for this bend by the shop's numbers, and what the piece is cut from. */
export function SetUp({
  plan,
  position,
  piece,
  lengthUnit,
}: {
  plan: JobPlan
  position: number
  piece: BenchPiece
  lengthUnit: LengthUnit
}) {
  const { setUp, spec } = plan
  if (!setUp) return null
  const show = shopFormat(lengthUnit)
  const bend = spec?.bends[position - 1]
  const lot = piece.stockPiece?.lot
  const facts: [string, string][] = [
    ['Press', `${setUp.press.shopNumber}, ${setUp.press.name}`],
    ['Support span', show.length(setUp.supportSpanMm)],
    [
      'Die',
      setUp.die
        ? `${setUp.die.shopNumber}, surface radius ${show.length(setUp.die.surfaceRadiusMm)}${setUp.die.place ? `, ${setUp.die.place}` : ''}`
        : bend
          ? `to make, surface radius ${show.length(bend.dieSurfaceRadiusMm)}`
          : 'none named',
    ],
    [
      'Strap',
      setUp.strap ? `${setUp.strap.shopNumber}${setUp.strap.place ? `, ${setUp.strap.place}` : ''}` : 'none',
    ],
    ['Filler', setUp.filler ? `${setUp.filler.shopNumber}, ${setUp.filler.name}` : 'none'],
    ...(bend
      ? ([
          ['Ram travel', show.length(bend.ramTravelMm)],
          ['Press force', show.force(bend.pressForceKn)],
        ] as [string, string][])
      : []),
    ['Tube', lot ? `lot ${lot.number}, heat ${lot.heatNumber || 'not noted'}` : 'not cut yet'],
  ]
  return (
    <details>
      <summary className="check">Set-up and tube</summary>
      <Facts facts={facts} />
    </details>
  )
}
