import type { LengthUnit } from '@/lib/core/units'
import { angleText, quantityText } from './quantity'
import type { TravellerBend, TravellerData, TravellerOperation } from './traveller-data'

/** A figure to read from where one stands, and the small words below it. */
export type Reading = { readonly main: string; readonly below: string }

export type BendTable = {
  readonly heads: readonly string[]
  readonly rows: readonly { readonly bendNumber: number; readonly cells: readonly Reading[] }[]
}

/** The bends of an operation, one a row: where, how far round, how far down, and the angles to read on the way. */
export function bendTable(bends: readonly TravellerBend[], unit: LengthUnit): BendTable {
  const meltsOut = bends.some(({ afterMeltOut }) => afterMeltOut)
  return {
    heads: [
      'Bend',
      'Centre mark',
      'Turn the tube',
      'Load to, ram full down',
      meltsOut ? 'At the press, ram back, filled' : 'Expect, ram back',
      ...(meltsOut ? ['After melt-out, empty, cold'] : []),
      'Wanted',
    ],
    rows: bends.map((bend) => {
      const where = quantityText({ lengthMm: bend.centreMarkMm }, unit)
      return {
        bendNumber: bend.bendNumber,
        cells: [
          {
            main: String(bend.bendNumber),
            below: `radius ${quantityText({ lengthMm: bend.finalRadiusMm }, unit).main}`,
          },
          { main: where.main, below: where.other },
          {
            main: angleText(bend.rotationDeg),
            below: bend.bendNumber > 1 ? `from bend ${bend.bendNumber - 1}` : '',
          },
          {
            main: angleText(bend.loadedAngleDeg),
            below: `ram travel ${quantityText({ lengthMm: bend.ramTravelMm }, unit).main}, about ${quantityText({ forceKn: bend.pressForceKn }, unit).main}`,
          },
          { main: angleText(bend.atPress.expectedDeg), below: rangeText(bend.atPress) },
          ...(bend.afterMeltOut
            ? [{ main: angleText(bend.afterMeltOut.expectedDeg), below: rangeText(bend.afterMeltOut) }]
            : []),
          { main: angleText(bend.wantedAngleDeg), below: acceptText(bend) },
        ],
      }
    }),
  }
}

function rangeText({ lowDeg, highDeg }: { lowDeg: number; highDeg: number }): string {
  return lowDeg === highDeg ? 'no range known' : `range ${angleText(lowDeg)} to ${angleText(highDeg)}`
}

export function acceptText({ wantedAngleDeg, angleToleranceDeg }: TravellerBend): string {
  return `accept ${angleText(wantedAngleDeg - angleToleranceDeg)} to ${angleText(wantedAngleDeg + angleToleranceDeg)}`
}

/** Boxes for one try at a bend, and for what is measured once on the finished bend. */
export function bendBoxes(
  bend: TravellerBend,
  data: Pick<TravellerData, 'sectionMeasures' | 'lengthUnit'>,
): { tries: readonly string[][]; finished: readonly string[] } {
  const measured = [
    'loaded to °',
    'at the press °',
    ...(bend.afterMeltOut ? ['after melt-out °'] : []),
    `radius, ${data.lengthUnit}`,
    'pass / fail / cannot say',
    'gauge, by, date',
  ]
  return {
    tries: [1, 2].map((tryNumber) =>
      measured.map((label, at) => (at === 0 ? `try ${tryNumber}: ${label}` : label)),
    ),
    finished: [
      ...[...data.sectionMeasures, 'wall outside', 'wall inside'].map(
        (name) => `${name}, ${data.lengthUnit}`,
      ),
      'look, dye',
    ],
  }
}

/** Boxes for one trial piece. */
export function trialBoxes(trial: number, meltsOut: boolean): string[] {
  return [
    `trial ${trial}: loaded to °`,
    'at the press °',
    ...(meltsOut ? ['after melt-out °'] : []),
    'wanted less measured °',
    'next loaded °',
    'by, date',
  ]
}

export const SIGN_OFF_HEADS = [
  'Operation',
  'by',
  'date',
  'minutes',
  'good / scrap',
  'HOLD: second person',
] as const

/** What the marks and the trial belong to; where no operation has them they stand by themselves. */
export function operationShowing(
  data: TravellerData,
  what: TravellerOperation['shows'],
): TravellerOperation | undefined {
  return data.operations.find(({ shows }) => shows === what)
}
