import type { CostedPart } from '@/lib/core/cost/costed-part'
import type { Operation, OperationKey } from '@/lib/core/cost/operation'
import { type OperationTimes, operationTimeNotes } from '@/lib/core/cost/operation-times'
import {
  meanSlant,
  sawCutMinutes,
  slantOf,
  throughWallMinutes,
  weldLabourMinutes,
} from '@/lib/core/cost/saw-and-weld'
import { added, fixed, scaled, type ThreePoint } from '@/lib/core/cost/spread'
import type { Support, WayKey } from '@/lib/core/cost/ways'
import type { WorkCentre } from '@/lib/core/cost/work-centres'

export interface RoutingContext {
  readonly part: CostedPart
  readonly times: OperationTimes
  readonly support: Support
  readonly strap: boolean
  readonly way: WayKey
}

/** How each operation's minutes come from the part. Minutes of the first piece of a run, before allowance. */
export const operationsByKey: Readonly<Record<OperationKey, (context: RoutingContext) => Operation>> = {
  readJob: ({ part, times }) =>
    operation('readJob', 'Read the job and lay out', 'office', {
      setUp: added(times.readJobMinutes, scaled(times.readPerBendMinutes, part.bendAnglesDeg.length)),
      run: fixed(0),
      driver: count(part.bendAnglesDeg.length, 'bend'),
      notes: ['readJobMinutes', 'readPerBendMinutes'],
    }),
  orderOutside: ({ times }) =>
    operation('orderOutside', 'Ask, order and chase', 'office', {
      setUp: times.orderOutsideMinutes,
      run: fixed(0),
      driver: 'one order',
      notes: ['orderOutsideMinutes'],
    }),
  receive: ({ times }) =>
    good('receive', 'Receive and check in', 'inspection', {
      setUp: times.receiveSetUpMinutes,
      run: times.receivePerPieceMinutes,
      driver: 'each piece that comes in',
      notes: ['receiveSetUpMinutes', 'receivePerPieceMinutes'],
    }),
  saw: ({ part, times }) =>
    machine('saw', 'Saw to length', 'saw', {
      setUp: times.sawSetUpMinutes,
      run: sawCutMinutes(part, times, 1),
      driver: `${round(part.sectionAreaMm2)} mm\u00b2 of wall at ${times.sawRateMm2PerMin[part.family]} mm\u00b2/min, and handling`,
      notes: ['sawSetUpMinutes', 'sawHandlingMinutes', 'sawRateMm2PerMin'],
    }),
  sawMitres: ({ part, times }) => {
    const straights = part.bendAnglesDeg.length + 1
    const cuts = 2 * straights
    const slant = meanSlant(part)
    return machine('sawMitres', 'Saw the straights and their mitres', 'saw', {
      setUp: added(times.sawSetUpMinutes, scaled(times.mitreSetUpMinutes, distinct(part.bendAnglesDeg))),
      run: scaled(sawCutMinutes(part, times, slant), cuts),
      driver: `${cuts} cuts a piece (${straights} straights), wall area ${round(part.sectionAreaMm2 * slant)} mm\u00b2 on the slant`,
      notes: ['sawSetUpMinutes', 'mitreSetUpMinutes', 'sawHandlingMinutes', 'sawRateMm2PerMin'],
    })
  },
  deburr: ({ part, times, way }) => {
    const ends = way === 'mitredWelded' ? 2 * (part.bendAnglesDeg.length + 1) : 2
    const edgeM = (2 * part.perimeterMm * ends) / 1000
    return operation('deburr', 'Deburr', 'bench', {
      setUp: times.deburrSetUpMinutes,
      run: scaled(times.deburrPerMetreMinutes, edgeM),
      driver: `${round(edgeM)} m of edge, inside and outside, ${ends} ends of ${round(part.perimeterMm)} mm perimeter`,
      notes: ['deburrSetUpMinutes', 'deburrPerMetreMinutes'],
    })
  },
  mark: ({ part, times }) =>
    operation('mark', 'Mark out', 'bench', {
      setUp: fixed(0),
      run: added(times.markPerPieceMinutes, scaled(times.markPerBendMinutes, part.bendAnglesDeg.length)),
      driver: count(part.bendAnglesDeg.length, 'bend'),
      notes: ['markPerPieceMinutes', 'markPerBendMinutes'],
    }),
  anneal: (context) => heatTreat('anneal', 'Anneal (sent out)', 'start', context),
  cleanBore: ({ part, times }) =>
    operation('cleanBore', 'Clean and oil the bore', 'bench', {
      setUp: times.cleanSetUpMinutes,
      run: scaled(times.cleanPerMetreMinutes, part.cutLengthMm / 1000),
      driver: `${round(part.cutLengthMm / 1000)} m of tube`,
      notes: ['cleanSetUpMinutes', 'cleanPerMetreMinutes'],
    }),
  fill: ({ part, times }) => ({
    ...operation('fill', 'Fill with low-melt alloy', 'filling', {
      setUp: times.fillHeatUpMinutes,
      run: added(times.fillPerPieceMinutes, scaled(times.fillPerKgMinutes, part.fillerKg)),
      driver: `${round(part.fillerKg)} kg a piece, ${times.piecesPerFilling} pieces at a time`,
      notes: ['fillHeatUpMinutes', 'fillPerPieceMinutes', 'fillPerKgMinutes', 'fillCoolingElapsedMinutes'],
    }),
    elapsedMinutes: times.fillCoolingElapsedMinutes,
    piecesPerBatch: times.piecesPerFilling,
  }),
  packSand: ({ part, times }) => {
    const litres = (part.boreAreaMm2 * part.cutLengthMm) / 1e6
    return operation('packSand', 'Pack with dry sand', 'filling', {
      setUp: times.sandSetUpMinutes,
      run: added(times.sandPerPieceMinutes, scaled(times.sandPerLitreMinutes, litres)),
      driver: `${round(litres)} litres of bore`,
      notes: ['sandSetUpMinutes', 'sandPerPieceMinutes', 'sandPerLitreMinutes'],
    })
  },
  setUpPress: ({ times, strap }) =>
    machine('setUpPress', 'Set up the press', 'press', {
      setUp: strap ? added(times.pressSetUpMinutes, times.strapSetUpMinutes) : times.pressSetUpMinutes,
      run: fixed(0),
      driver: strap ? 'die, supports, span and strap, once' : 'die, supports and span, once',
      notes: strap ? ['pressSetUpMinutes', 'strapSetUpMinutes'] : ['pressSetUpMinutes'],
    }),
  trial: (context) => {
    const { part, times, support } = context
    const each = added(oneBendMinutes(context, meanAngleDeg(part)), trialFillMinutes(support, part, times))
    return machine('trial', 'Trial bends', 'press', {
      setUp: product(times.trialPieces, each),
      run: fixed(0),
      driver: `${pointText(times.trialPieces)} trial bends at ${round(meanAngleDeg(part))} degrees, filled and emptied as the part is`,
      notes: ['trialPieces', 'bendMinutes', 'bendPer90DegMinutes'],
    })
  },
  bend: (context) => {
    const { part, times, strap } = context
    const bends = part.bendAnglesDeg.reduce(
      (sum, angleDeg) => added(sum, oneBendMinutes(context, angleDeg)),
      fixed(0),
    )
    const tight = part.angleToleranceDeg <= times.tightAngleToleranceDeg ? ', held to a tight angle' : ''
    return operation('bend', 'Bend and check', 'press', {
      setUp: fixed(0),
      run: added(bends, scaled(times.planeChangeMinutes, part.planeChangeCount)),
      driver: `${count(part.bendAnglesDeg.length, 'bend')} of ${part.bendAnglesDeg.map(round).join(', ')} degrees, ${count(part.planeChangeCount, 'plane change')}${tight}${strap ? ', with strap' : ''}`,
      notes: [
        'bendMinutes',
        'bendPer90DegMinutes',
        'planeChangeMinutes',
        'tightAngleMinutes',
        'strapPerBendMinutes',
      ],
    })
  },
  meltOut: ({ part, times }) => ({
    ...operation('meltOut', 'Melt out, wash, look for residue', 'filling', {
      setUp: times.meltOutSetUpMinutes,
      run: added(
        times.meltOutPerPieceMinutes,
        added(
          scaled(times.meltOutPerKgMinutes, part.fillerKg),
          scaled(times.meltOutPerBendMinutes, part.bendAnglesDeg.length),
        ),
      ),
      driver: `${round(part.fillerKg)} kg out of a ${round(Math.sqrt((4 * part.boreAreaMm2) / Math.PI))} mm bore past ${count(part.bendAnglesDeg.length, 'bend')}`,
      notes: [
        'meltOutSetUpMinutes',
        'meltOutPerPieceMinutes',
        'meltOutPerKgMinutes',
        'meltOutPerBendMinutes',
      ],
    }),
    elapsedMinutes: times.meltOutElapsedMinutes,
    piecesPerBatch: times.piecesPerFilling,
  }),
  emptySand: ({ times }) =>
    operation('emptySand', 'Empty and blow out', 'filling', {
      setUp: fixed(0),
      run: times.emptySandMinutes,
      driver: 'each piece',
      notes: ['emptySandMinutes'],
    }),
  checkAngles: ({ part, times }) =>
    operation('checkAngles', 'Measure the bends', 'inspection', {
      setUp: times.checkAngleSetUpMinutes,
      run: scaled(times.checkPerBendMinutes, part.bendAnglesDeg.length),
      driver: count(part.bendAnglesDeg.length, 'bend'),
      notes: ['checkAngleSetUpMinutes', 'checkPerBendMinutes'],
    }),
  dyePenetrant: ({ part, times }) => ({
    ...operation('dyePenetrant', 'Dye penetrant', 'inspection', {
      setUp: times.dyePenetrantSetUpMinutes,
      run: scaled(times.dyePenetrantPerBendMinutes, part.bendAnglesDeg.length),
      driver: count(part.bendAnglesDeg.length, 'bend'),
      notes: ['dyePenetrantSetUpMinutes', 'dyePenetrantPerBendMinutes', 'dyePenetrantElapsedMinutes'],
    }),
    elapsedMinutes: times.dyePenetrantElapsedMinutes,
    piecesPerBatch: 10,
  }),
  age: (context) => heatTreat('age', 'Age (sent out)', 'good', context),
  solutionAge: (context) =>
    heatTreat('solutionAge', 'Solution treat, quench and age (sent out)', 'good', context),
  trimEnds: ({ part, times }) => {
    const ends = endCount(part, 'square')
    return good('trimEnds', 'Trim square ends', 'saw', {
      setUp: times.trimSetUpMinutes,
      run: scaled(added(times.trimPerEndMinutes, fixed(throughWallMinutes(part, times))), ends),
      driver: `${count(ends, 'square end')}, ${round(part.sectionAreaMm2)} mm\u00b2 of wall each`,
      notes: ['trimSetUpMinutes', 'trimPerEndMinutes', 'sawRateMm2PerMin'],
    })
  },
  mitreEnds: ({ part, times }) => {
    const ends = endCount(part, 'mitre')
    return good('mitreEnds', 'Mitre ends', 'saw', {
      setUp: times.mitreSetUpMinutes,
      run: scaled(added(times.mitrePerEndMinutes, fixed(throughWallMinutes(part, times))), ends),
      driver: `${count(ends, 'mitred end')}, ${round(part.sectionAreaMm2)} mm\u00b2 of wall each`,
      notes: ['mitreSetUpMinutes', 'mitrePerEndMinutes', 'sawRateMm2PerMin'],
    })
  },
  saddleEnds: ({ part, times }) => {
    const ends = endCount(part, 'saddle')
    return good('saddleEnds', 'Saddle ends', 'bench', {
      setUp: times.saddleSetUpMinutes,
      run: scaled(times.saddlePerEndMinutes, ends),
      driver: count(ends, 'saddled end'),
      notes: ['saddleSetUpMinutes', 'saddlePerEndMinutes'],
    })
  },
  fitWeldMitres: ({ part, times }) => {
    const jointLengthsMm = part.bendAnglesDeg.map((angleDeg) => part.perimeterMm * slantOf(angleDeg))
    return {
      ...weld('fitWeldMitres', 'Fit and weld the mitres', jointLengthsMm, times),
      runsPer: 'start',
    }
  },
  fitWeld: ({ part, times }) =>
    weld(
      'fitWeld',
      'Fit and weld the ends',
      Array.from({ length: part.weldedEndCount }, () => part.perimeterMm),
      times,
    ),
  drill: ({ part, times }) =>
    good('drill', 'Drill holes', 'bench', {
      setUp: times.holeSetUpMinutes,
      run: scaled(times.holeMinutes, part.holeCount),
      driver: count(part.holeCount, 'hole'),
      notes: ['holeSetUpMinutes', 'holeMinutes'],
    }),
  inspect: ({ part, times }) =>
    good('inspect', 'Final inspection and record', 'inspection', {
      setUp: times.inspectSetUpMinutes,
      run: added(times.inspectPerPieceMinutes, scaled(times.inspectPerFeatureMinutes, part.featureCount)),
      driver: count(part.featureCount, 'feature'),
      notes: ['inspectSetUpMinutes', 'inspectPerPieceMinutes', 'inspectPerFeatureMinutes'],
    }),
  pack: ({ times }) =>
    good('pack', 'Mark and pack', 'bench', {
      setUp: fixed(0),
      run: times.packMinutes,
      driver: 'each piece',
      notes: ['packMinutes'],
    }),
}

interface Drive {
  readonly setUp: ThreePoint
  readonly run: ThreePoint
  readonly driver: string
  readonly notes: readonly (keyof OperationTimes)[]
}

function operation(key: OperationKey, name: string, workCentre: WorkCentre, drive: Drive): Operation {
  const sources = new Set(drive.notes.map((note) => operationTimeNotes[note].source))
  return {
    key,
    name,
    workCentre,
    setUpMinutes: drive.setUp,
    runMinutesPerPiece: drive.run,
    elapsedMinutes: fixed(0),
    piecesPerBatch: 1,
    runsPer: 'start',
    driver: drive.driver,
    source: [...sources].join('; '),
    hand: true,
    overridden: [],
  }
}

function machine(key: OperationKey, name: string, workCentre: WorkCentre, drive: Drive): Operation {
  return { ...operation(key, name, workCentre, drive), hand: false }
}

function good(key: OperationKey, name: string, workCentre: WorkCentre, drive: Drive): Operation {
  return { ...operation(key, name, workCentre, drive), runsPer: 'good' }
}

function heatTreat(
  key: OperationKey,
  name: string,
  runsPer: 'start' | 'good',
  { part, times }: RoutingContext,
): Operation {
  return {
    ...machine(key, name, 'oven', {
      setUp: times.heatTreatPackMinutes,
      run: times.heatTreatPerPieceMinutes,
      driver: `packing and papers for the lot, ${round(part.massKg)} kg a piece`,
      notes: ['heatTreatPackMinutes', 'heatTreatPerPieceMinutes'],
    }),
    runsPer,
  }
}

function weld(
  key: OperationKey,
  name: string,
  jointLengthsMm: readonly number[],
  times: OperationTimes,
): Operation {
  const lengthMm = jointLengthsMm.reduce((sum, length) => sum + length, 0)
  const perJoint = added(times.fitUpPerJointMinutes, times.dressPerJointMinutes)
  return good(key, name, 'welding', {
    setUp: times.fitUpSetUpMinutes,
    run: added(scaled(perJoint, jointLengthsMm.length), weldLabourMinutes(lengthMm, times)),
    driver: `${count(jointLengthsMm.length, 'joint')}, ${round(lengthMm)} mm of weld at ${times.weldSpeedMmPerMin} mm/min and ${round(100 * times.weldOperatingFactor.likely)} percent arc time`,
    notes: ['fitUpSetUpMinutes', 'fitUpPerJointMinutes', 'weldSpeedMmPerMin', 'weldOperatingFactor'],
  })
}

function oneBendMinutes({ part, times, strap }: RoutingContext, angleDeg: number): ThreePoint {
  let minutes = added(times.bendMinutes, scaled(times.bendPer90DegMinutes, angleDeg / 90))
  if (part.angleToleranceDeg <= times.tightAngleToleranceDeg)
    minutes = added(minutes, times.tightAngleMinutes)
  return strap ? added(minutes, times.strapPerBendMinutes) : minutes
}

function trialFillMinutes(support: Support, part: CostedPart, times: OperationTimes): ThreePoint {
  const bendShare = 1 / Math.max(part.bendAnglesDeg.length, 1)
  if (support === 'sand') return added(times.sandPerPieceMinutes, times.emptySandMinutes)
  if (support === 'hollow') return fixed(0)
  const perKg = added(times.fillPerKgMinutes, times.meltOutPerKgMinutes)
  return added(
    added(times.fillPerPieceMinutes, times.meltOutPerPieceMinutes),
    scaled(perKg, part.fillerKg * bendShare),
  )
}

function meanAngleDeg(part: CostedPart): number {
  const angles = part.bendAnglesDeg
  return angles.length === 0 ? 0 : angles.reduce((sum, angleDeg) => sum + angleDeg, 0) / angles.length
}

function distinct(values: readonly number[]): number {
  return new Set(values).size
}

function endCount(part: CostedPart, cut: CostedPart['startCut']): number {
  return [part.startCut, part.endCut].filter((one) => one === cut).length
}

function product(one: ThreePoint, other: ThreePoint): ThreePoint {
  return { low: one.low * other.low, likely: one.likely * other.likely, high: one.high * other.high }
}

function count(number: number, noun: string): string {
  return `${number} ${noun}${number === 1 ? '' : 's'}`
}

function round(value: number): string {
  return String(Number(value.toPrecision(3)))
}

function pointText(point: ThreePoint): string {
  return `${point.low} to ${point.high}`
}
