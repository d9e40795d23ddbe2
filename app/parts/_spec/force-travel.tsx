import { RunChart } from '@/app/_ui/run-chart'
import type { BendAnswer } from '@/lib/core/spec/contract'
import type { LengthUnit } from '@/lib/core/units'
import { angleShown, forceShown, lengthShown } from './spec-shown'

/** Of the answer's 31 points of the stroke, those that a phone has room to label. */
const everyPoint = 5

/** What the press's gauge should read as the ram comes down, and what is wrapped on the die by then. */
export function ForceTravel({ bend, unit }: { bend: BendAnswer; unit: LengthUnit }) {
  const said = ({ value, unit: of }: { value: string; unit?: string }) =>
    `${value}${of === '°' ? '' : ' '}${of}`
  const points = bend.stroke
    .filter((_, index) => index % everyPoint === 0)
    .map(({ wrappedAngleDeg, ramTravelMm, forceKn }) => {
      const travel = lengthShown(ramTravelMm, unit)
      return {
        key: String(wrappedAngleDeg),
        label: travel.value,
        value: forceKn,
        text: `${said(forceShown(forceKn, unit))} at ${said(travel)}, ${said(angleShown(wrappedAngleDeg))} on the die`,
      }
    })
  const first = forceShown(bend.stroke[0]?.forceKn ?? 0, unit)
  const most = forceShown(bend.pressForceKn, unit)
  return (
    <RunChart
      label="Ram force over ram travel"
      points={points}
      nominal={{ value: bend.pressForceKn, text: most.value }}
      axisText={`Ram force over ram travel in ${unit === 'in' ? 'inches' : 'millimetres'}: ${said(first)} where the tube begins to lie on the die, ${said(most)} at the most.`}
    />
  )
}
