import type { ScribeMark } from '@/lib/core/templates/scribing-strip'
import type { LengthUnit } from '@/lib/core/units'
import type { Hazard } from './cautions'
import type { Linework } from './linework'
import type { PaperIssue } from './paper'
import type { PaperQuantity } from './quantity'

export interface SetPoint {
  readonly label: string
  readonly quantity: PaperQuantity
}

/** Nineteen in twenty readings are to lie between low and high. */
export interface ExpectedAngle {
  readonly expectedDeg: number
  readonly lowDeg: number
  readonly highDeg: number
}

export interface TravellerBend {
  readonly bendNumber: number
  readonly rotationDeg: number
  readonly loadedAngleDeg: number
  /** What a protractor reads after the ram backs off and before melt-out. */
  readonly atPress: ExpectedAngle
  /** Absent where nothing is melted out: then the angle at the press is the final one. */
  readonly afterMeltOut?: ExpectedAngle
  readonly wantedAngleDeg: number
  readonly angleToleranceDeg: number
  readonly finalRadiusMm: number
  readonly ramTravelMm: number
  readonly pressForceKn: number
  readonly centreMarkMm: number
}

export interface TravellerOperation {
  readonly sequence: number
  readonly title: string
  readonly instruction: string
  readonly setPoints: readonly SetPoint[]
  readonly hazards: readonly Hazard[]
  /** Bends made in this operation, each printed with its angles. */
  readonly bendNumbers?: readonly number[]
  /** What else is printed inside this operation: the marks to scribe, or the trial piece with its boxes. */
  readonly shows?: 'marks' | 'trial'
  readonly plannedMin?: number
  /** Someone other than the operator signs here before work goes on. */
  readonly isHoldPoint?: boolean
}

export interface TravellerPiece {
  readonly pieceNumber: string
  readonly stockLotNumber: string
  readonly heatNumber: string
  readonly benchUrl: string
}

export interface TravellerData extends PaperIssue {
  readonly shopName: string
  readonly lengthUnit: LengthUnit
  readonly job: {
    readonly jobNumber: string
    readonly customerName: string
    readonly orderNumber?: string
    readonly partNumber: string
    readonly partRevision: string
    readonly partTitle: string
    readonly drawingNumber?: string
    readonly pieceCount: number
    readonly dueOn: string
    readonly benchUrl: string
  }
  readonly part: {
    readonly sectionText: string
    readonly materialText: string
    /** Whose values the bends were worked out with, where not the table's. */
    readonly valuesFromText?: string
    readonly endTemperText: string
    /** Absent where nothing is bent here. */
    readonly cutLengthMm?: number
    readonly developedLengthMm?: number
    readonly massKg?: number
  }
  readonly drawings: readonly Linework[]
  readonly stockLots: readonly {
    readonly lotNumber: string
    readonly heatNumber: string
    readonly certificateText: string
    readonly placeText: string
  }[]
  readonly setUp: readonly SetPoint[]
  readonly datumText: string
  readonly marks: readonly ScribeMark[]
  /** What is measured across a finished bend: three widths of a tube with faces, two of a round one. */
  readonly sectionMeasures: readonly string[]
  readonly bends: readonly TravellerBend[]
  readonly operations: readonly TravellerOperation[]
  readonly trialSteps: readonly string[]
  /** What the ranges of the angles are made of. */
  readonly rangeText?: string
  /** Why there are no set-points, or what else must be known before work begins. */
  readonly remarks?: readonly string[]
  readonly pieces: readonly TravellerPiece[]
}
