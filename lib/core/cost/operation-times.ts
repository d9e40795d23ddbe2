import type { ThreePoint } from '@/lib/core/cost/spread'
import type { AlloyFamily } from '@/lib/core/materials/alloys'

/** The shop's times behind every operation. Minutes of one person's work unless the name says elapsed. */
export interface OperationTimes {
  readonly readJobMinutes: ThreePoint
  readonly readPerBendMinutes: ThreePoint
  readonly markPerPieceMinutes: ThreePoint
  readonly markPerBendMinutes: ThreePoint
  readonly sawSetUpMinutes: ThreePoint
  readonly sawHandlingMinutes: ThreePoint
  readonly sawRateMm2PerMin: Readonly<Record<AlloyFamily, number>>
  readonly deburrSetUpMinutes: ThreePoint
  readonly deburrPerMetreMinutes: ThreePoint
  readonly cleanSetUpMinutes: ThreePoint
  readonly cleanPerMetreMinutes: ThreePoint
  readonly sandSetUpMinutes: ThreePoint
  readonly sandPerPieceMinutes: ThreePoint
  readonly sandPerLitreMinutes: ThreePoint
  readonly emptySandMinutes: ThreePoint
  readonly fillHeatUpMinutes: ThreePoint
  readonly fillPerPieceMinutes: ThreePoint
  readonly fillPerKgMinutes: ThreePoint
  readonly fillCoolingElapsedMinutes: ThreePoint
  readonly piecesPerFilling: number
  readonly pressSetUpMinutes: ThreePoint
  readonly strapSetUpMinutes: ThreePoint
  readonly trialPieces: ThreePoint
  readonly bendMinutes: ThreePoint
  readonly bendPer90DegMinutes: ThreePoint
  readonly planeChangeMinutes: ThreePoint
  readonly tightAngleToleranceDeg: number
  readonly tightAngleMinutes: ThreePoint
  readonly strapPerBendMinutes: ThreePoint
  readonly meltOutSetUpMinutes: ThreePoint
  readonly meltOutPerPieceMinutes: ThreePoint
  readonly meltOutPerKgMinutes: ThreePoint
  readonly meltOutPerBendMinutes: ThreePoint
  readonly meltOutElapsedMinutes: ThreePoint
  readonly checkAngleSetUpMinutes: ThreePoint
  readonly checkPerBendMinutes: ThreePoint
  readonly heatTreatPackMinutes: ThreePoint
  readonly heatTreatPerPieceMinutes: ThreePoint
  readonly trimSetUpMinutes: ThreePoint
  readonly trimPerEndMinutes: ThreePoint
  readonly mitreSetUpMinutes: ThreePoint
  readonly mitrePerEndMinutes: ThreePoint
  readonly saddleSetUpMinutes: ThreePoint
  readonly saddlePerEndMinutes: ThreePoint
  readonly holeSetUpMinutes: ThreePoint
  readonly holeMinutes: ThreePoint
  readonly fitUpSetUpMinutes: ThreePoint
  readonly fitUpPerJointMinutes: ThreePoint
  readonly weldSpeedMmPerMin: number
  readonly weldOperatingFactor: ThreePoint
  readonly dressPerJointMinutes: ThreePoint
  readonly inspectSetUpMinutes: ThreePoint
  readonly inspectPerPieceMinutes: ThreePoint
  readonly inspectPerFeatureMinutes: ThreePoint
  readonly dyePenetrantSetUpMinutes: ThreePoint
  readonly dyePenetrantPerBendMinutes: ThreePoint
  readonly dyePenetrantElapsedMinutes: ThreePoint
  readonly packMinutes: ThreePoint
  readonly orderOutsideMinutes: ThreePoint
  readonly receiveSetUpMinutes: ThreePoint
  readonly receivePerPieceMinutes: ThreePoint
}

const point = (low: number, likely: number, high: number): ThreePoint => ({ low, likely, high })

const practice = 'common practice, no source'

/** The times a new shop starts from; to be replaced by its own logged minutes after five jobs. */
export const defaultOperationTimes: OperationTimes = {
  readJobMinutes: point(10, 15, 30),
  readPerBendMinutes: point(1, 2, 4),
  markPerPieceMinutes: point(1, 1.5, 2.5),
  markPerBendMinutes: point(0.5, 1, 1.5),
  sawSetUpMinutes: point(5, 8, 15),
  sawHandlingMinutes: point(0.5, 1, 1.5),
  sawRateMm2PerMin: { aluminium: 5800, steel: 2900, stainless: 800, titanium: 400, copper: 2900 },
  deburrSetUpMinutes: point(0, 2, 5),
  deburrPerMetreMinutes: point(3, 6, 10),
  cleanSetUpMinutes: point(5, 6, 10),
  cleanPerMetreMinutes: point(1.5, 2.5, 5),
  sandSetUpMinutes: point(10, 15, 30),
  sandPerPieceMinutes: point(6, 8, 15),
  sandPerLitreMinutes: point(3, 5, 8),
  emptySandMinutes: point(3, 5, 10),
  fillHeatUpMinutes: point(20, 30, 45),
  fillPerPieceMinutes: point(4, 6, 10),
  fillPerKgMinutes: point(0.3, 0.5, 1),
  fillCoolingElapsedMinutes: point(15, 20, 30),
  piecesPerFilling: 2,
  pressSetUpMinutes: point(20, 40, 90),
  strapSetUpMinutes: point(5, 8, 15),
  trialPieces: point(1, 2, 3),
  bendMinutes: point(4, 6, 12),
  bendPer90DegMinutes: point(1, 2, 3),
  planeChangeMinutes: point(2, 4, 8),
  tightAngleToleranceDeg: 0.5,
  tightAngleMinutes: point(2, 4, 8),
  strapPerBendMinutes: point(1, 2, 3),
  meltOutSetUpMinutes: point(10, 15, 20),
  meltOutPerPieceMinutes: point(8, 10, 16),
  meltOutPerKgMinutes: point(0.3, 0.6, 1),
  meltOutPerBendMinutes: point(0.5, 1, 2),
  meltOutElapsedMinutes: point(10, 20, 40),
  checkAngleSetUpMinutes: point(2, 3, 5),
  checkPerBendMinutes: point(1.5, 2.5, 4),
  heatTreatPackMinutes: point(20, 30, 60),
  heatTreatPerPieceMinutes: point(1, 2, 4),
  trimSetUpMinutes: point(5, 7, 10),
  trimPerEndMinutes: point(1.5, 2.5, 4),
  mitreSetUpMinutes: point(10, 15, 25),
  mitrePerEndMinutes: point(2, 3.5, 6),
  saddleSetUpMinutes: point(10, 18, 25),
  saddlePerEndMinutes: point(3, 5, 10),
  holeSetUpMinutes: point(5, 8, 15),
  holeMinutes: point(1, 2, 4),
  fitUpSetUpMinutes: point(10, 15, 20),
  fitUpPerJointMinutes: point(3, 5, 9),
  weldSpeedMmPerMin: 101.6,
  weldOperatingFactor: point(0.15, 0.25, 0.3),
  dressPerJointMinutes: point(1, 2, 4),
  inspectSetUpMinutes: point(5, 7, 10),
  inspectPerPieceMinutes: point(1.5, 2, 3),
  inspectPerFeatureMinutes: point(0.4, 0.6, 1),
  dyePenetrantSetUpMinutes: point(5, 8, 12),
  dyePenetrantPerBendMinutes: point(2, 3, 5),
  dyePenetrantElapsedMinutes: point(15, 25, 40),
  packMinutes: point(1, 2, 4),
  orderOutsideMinutes: point(30, 45, 90),
  receiveSetUpMinutes: point(10, 15, 25),
  receivePerPieceMinutes: point(2, 3, 5),
}

/** What each time means and where its default comes from, for the settings screen. */
export const operationTimeNotes: Readonly<Record<keyof OperationTimes, { meaning: string; source: string }>> =
  {
    readJobMinutes: { meaning: 'Reading the drawing and laying out the job, once', source: practice },
    readPerBendMinutes: { meaning: 'More reading for each bend, once a job', source: practice },
    markPerPieceMinutes: { meaning: 'Marking one piece from its datum end', source: practice },
    markPerBendMinutes: { meaning: 'Marking the tangent points of one bend', source: practice },
    sawSetUpMinutes: { meaning: 'Setting the saw and its length stop, once', source: practice },
    sawHandlingMinutes: { meaning: 'Load, measure and clamp for one cut', source: practice },
    sawRateMm2PerMin: {
      meaning: 'Wall cross-section sawn in a minute',
      source:
        'Band saw makers\u2019 charts (steel 8-10, stainless 2-3 square inches a minute), halved for thin tube; aluminium, titanium and copper: common practice, no source',
    },
    deburrSetUpMinutes: { meaning: 'Getting deburring tools ready, once', source: practice },
    deburrPerMetreMinutes: {
      meaning: 'Deburring, a metre of cut edge, inside and outside counted',
      source: practice,
    },
    cleanSetUpMinutes: { meaning: 'Getting degreaser and bore oil ready, once', source: practice },
    cleanPerMetreMinutes: { meaning: 'Degreasing and oiling the bore, a metre of tube', source: practice },
    sandSetUpMinutes: { meaning: 'Drying sand and making plugs, once', source: practice },
    sandPerPieceMinutes: { meaning: 'Plugging and ramming one piece', source: practice },
    sandPerLitreMinutes: { meaning: 'Filling and ramming, a litre of bore', source: practice },
    emptySandMinutes: { meaning: 'Emptying and blowing out one piece', source: practice },
    fillHeatUpMinutes: { meaning: 'Melting the alloy and warming the tube, each job', source: practice },
    fillPerPieceMinutes: { meaning: 'Plugging, pouring and topping up one piece', source: practice },
    fillPerKgMinutes: { meaning: 'Pouring, each kilogram', source: practice },
    fillCoolingElapsedMinutes: {
      meaning: 'Cooling in water before bending, each filling; nobody stands by',
      source: 'US Army AL0907, p. 38: water cool 15 to 30 minutes by diameter',
    },
    piecesPerFilling: { meaning: 'Pieces filled or melted out together', source: practice },
    pressSetUpMinutes: { meaning: 'Die, supports, span and stops on the press, once', source: practice },
    strapSetUpMinutes: { meaning: 'Fitting the backing strap, once', source: practice },
    trialPieces: { meaning: 'Trial bends before the first good one, each job', source: practice },
    bendMinutes: { meaning: 'Set in, bend, release and check one bend', source: practice },
    bendPer90DegMinutes: { meaning: 'More for each 90 degrees of a bend', source: practice },
    planeChangeMinutes: { meaning: 'Turning the piece to a new plane and proving it', source: practice },
    tightAngleToleranceDeg: {
      meaning: 'Angle tolerance from which a bend takes more hits',
      source: practice,
    },
    tightAngleMinutes: { meaning: 'More for each bend held to a tight angle', source: practice },
    strapPerBendMinutes: { meaning: 'Moving the strap for one bend', source: practice },
    meltOutSetUpMinutes: { meaning: 'Heating the melt-out tank, each job', source: practice },
    meltOutPerPieceMinutes: {
      meaning: 'Melting out, washing and looking for residue, one piece',
      source: practice,
    },
    meltOutPerKgMinutes: { meaning: 'Melting out, each kilogram', source: practice },
    meltOutPerBendMinutes: { meaning: 'Turning the piece so that a bend drains', source: practice },
    meltOutElapsedMinutes: {
      meaning: 'Soaking in the tank, each filling; nobody stands by',
      source: practice,
    },
    checkAngleSetUpMinutes: { meaning: 'Laying out the template or protractor, once', source: practice },
    checkPerBendMinutes: { meaning: 'Measuring and logging one bend', source: practice },
    heatTreatPackMinutes: {
      meaning: 'Packing and papers for the heat treater, each batch',
      source: practice,
    },
    heatTreatPerPieceMinutes: { meaning: 'Handling one piece to and from heat treatment', source: practice },
    trimSetUpMinutes: { meaning: 'Fixture to trim bent pieces to length, once', source: practice },
    trimPerEndMinutes: { meaning: 'Trimming one square end', source: practice },
    mitreSetUpMinutes: { meaning: 'Setting up mitre cuts, once', source: practice },
    mitrePerEndMinutes: { meaning: 'Cutting and fitting one mitred end', source: practice },
    saddleSetUpMinutes: { meaning: 'Setting up saddle cuts, once', source: practice },
    saddlePerEndMinutes: { meaning: 'Cutting and fitting one saddled end', source: practice },
    holeSetUpMinutes: { meaning: 'Setting up for holes, once', source: practice },
    holeMinutes: { meaning: 'Marking and drilling one hole', source: practice },
    fitUpSetUpMinutes: { meaning: 'Jig and clamps for welding, once', source: practice },
    fitUpPerJointMinutes: { meaning: 'Fitting and tacking one joint', source: practice },
    weldSpeedMmPerMin: {
      meaning: 'Travel of the arc while it burns',
      source: 'Manual TIG on 1.5 to 3 mm wall 2 to 5 inches a minute; 4 taken; from memory',
    },
    weldOperatingFactor: {
      meaning: 'Share of the welder\u2019s time that the arc burns',
      source:
        'Handbook of Structural Steel Connection Design and Details, p. 231: stick 30 percent; manual TIG 15-30 percent from memory',
    },
    dressPerJointMinutes: { meaning: 'Dressing and looking at one joint', source: practice },
    inspectSetUpMinutes: { meaning: 'Getting gauges and the record ready, once', source: practice },
    inspectPerPieceMinutes: { meaning: 'Final look and record of one piece', source: practice },
    inspectPerFeatureMinutes: { meaning: 'Measuring one feature', source: practice },
    dyePenetrantSetUpMinutes: { meaning: 'Getting penetrant and developer ready, once', source: practice },
    dyePenetrantPerBendMinutes: { meaning: 'Cleaning, applying and reading at one bend', source: practice },
    dyePenetrantElapsedMinutes: { meaning: 'Dwell and development; nobody stands by', source: practice },
    packMinutes: { meaning: 'Marking and packing one piece', source: practice },
    orderOutsideMinutes: { meaning: 'Asking, ordering and chasing an outside bender', source: practice },
    receiveSetUpMinutes: { meaning: 'Booking in a delivery and its papers', source: practice },
    receivePerPieceMinutes: { meaning: 'Checking one piece that comes in', source: practice },
  }
