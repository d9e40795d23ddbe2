import { z } from 'zod'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import {
  type BendAnswer,
  type SpecAnswer,
  type SpecFault,
  type SpecInput,
  SpecRefusal,
} from '@/lib/core/spec/contract'
import { afterTrialPieces, type BendSpread, specUncertainty, usualTrial } from '@/lib/core/spec/uncertainty'

const mostMagnitude = 1e7

const number = z
  .number('a number')
  .min(-mostMagnitude, `a size of at most ${mostMagnitude}`)
  .max(mostMagnitude, `a size of at most ${mostMagnitude}`)
const positive = number.gt(0, 'above 0')
const notNegative = number.gte(0, '0 or more')
const fraction = number.gt(0, 'above 0').lte(1, 'at most 1')

const tube = z
  .strictObject(
    {
      shape: z.enum(['square', 'rectangular', 'round'], 'square, rectangular or round'),
      widthMm: positive,
      heightMm: positive,
      wallMm: positive,
      cornerRadiusMm: notNegative.optional(),
    },
    'an object',
  )
  .superRefine((given, context) => {
    const halfMm = Math.min(given.widthMm, given.heightMm) / 2
    if (given.shape !== 'rectangular' && given.widthMm !== given.heightMm) {
      context.addIssue({
        code: 'custom',
        path: ['heightMm'],
        message: `the width, ${given.widthMm}, in a ${given.shape} tube`,
        input: given.heightMm,
      })
    }
    if (given.wallMm >= halfMm) {
      context.addIssue({
        code: 'custom',
        path: ['wallMm'],
        message: `under half the smaller side, ${halfMm}`,
        input: given.wallMm,
      })
    }
    if (given.cornerRadiusMm !== undefined && given.cornerRadiusMm > halfMm) {
      context.addIssue({
        code: 'custom',
        path: ['cornerRadiusMm'],
        message: `at most half the smaller side, ${halfMm}`,
        input: given.cornerRadiusMm,
      })
    }
  })

const material = z
  .strictObject(
    {
      id: z.string('text').min(1, 'an id of the material table').max(80, 'at most 80 characters').optional(),
      family: z
        .enum(
          ['aluminium', 'steel', 'stainless', 'titanium', 'copper'],
          'aluminium, steel, stainless, titanium or copper',
        )
        .optional(),
      elasticModulusMPa: positive.optional(),
      yieldMPa: positive.optional(),
      tensileMPa: positive.optional(),
      uniformStrain: positive.optional(),
      elongationPct: positive.optional(),
      reductionOfAreaPct: number.gt(0, 'above 0').lt(100, 'under 100').optional(),
      poisson: number.gt(0, 'above 0').lte(0.5, 'at most 0.5').optional(),
      densityKgM3: positive.optional(),
    },
    'an object',
  )
  .superRefine((given, context) => {
    if (given.id === undefined) {
      for (const key of [
        'family',
        'elasticModulusMPa',
        'yieldMPa',
        'tensileMPa',
        'elongationPct',
        'poisson',
        'densityKgM3',
      ] as const) {
        if (given[key] === undefined)
          context.addIssue({
            code: 'custom',
            path: [key],
            message: 'required without a material id',
            input: undefined,
          })
      }
    }
    if (
      given.yieldMPa !== undefined &&
      given.tensileMPa !== undefined &&
      given.tensileMPa <= given.yieldMPa
    ) {
      context.addIssue({
        code: 'custom',
        path: ['tensileMPa'],
        message: `above the yield, ${given.yieldMPa}`,
        input: given.tensileMPa,
      })
    }
  })

const bend = z.strictObject(
  {
    straightBeforeMm: notNegative,
    angleDeg: number.gt(0, 'above 0').lt(180, 'under 180'),
    centrelineRadiusMm: positive,
    rotationDeg: number.gte(-360, '-360 to 360').lte(360, '-360 to 360'),
  },
  'an object',
)

const strap = z.strictObject(
  {
    thicknessMm: positive,
    widthMm: positive,
    yieldMPa: positive,
    frictionCoeff: notNegative.optional(),
  },
  'an object',
)

const percent = number.gte(0, '0 to 100').lte(100, '0 to 100')

/** An alloy that is in no table: what it is made of, where it melts, and what is known besides. */
const ownFiller = z.strictObject(
  {
    id: z.string('text').min(1, 'the name it goes by').max(60, 'at most 60 characters'),
    name: z.string('text').max(120, 'at most 120 characters').optional(),
    compositionPct: z.strictObject(
      {
        Bi: percent.optional(),
        Pb: percent.optional(),
        Sn: percent.optional(),
        Cd: percent.optional(),
        In: percent.optional(),
        Sb: percent.optional(),
      },
      'percent by mass of Bi, Pb, Sn, Cd, In and Sb',
    ),
    solidusC: number,
    liquidusC: number,
    densityKgM3: positive.optional(),
    yieldMPa: positive.optional(),
    elasticModulusMPa: positive.optional(),
    latentHeatKJPerKg: positive.optional(),
    growthNote: z.string('text').max(300, 'at most 300 characters').optional(),
    source: z.string('text').max(200, 'at most 200 characters').optional(),
    status: z.enum(['verified', 'secondary', 'memory'], 'verified, secondary or memory').optional(),
  },
  'an object',
)

const method = z.strictObject(
  {
    support: z.enum(['hollow', 'sand', 'lowMelt'], 'hollow, sand or lowMelt'),
    strap: strap.optional(),
    fillerId: z
      .string('text')
      .min(1, 'an id of the filler table')
      .max(80, 'at most 80 characters')
      .optional(),
    ownFiller: ownFiller.optional(),
    fillerYieldMPa: positive.optional(),
    fillerModulusMPa: positive.optional(),
    fillerDensityKgM3: positive.optional(),
  },
  'an object',
)

const press = z.strictObject(
  {
    capacityKn: positive,
    supportSpanMm: positive,
    supportNoseRadiusMm: notNegative,
    supportFrictionCoeff: notNegative.optional(),
    strokeMm: positive.optional(),
    useFraction: fraction.optional(),
  },
  'an object',
)

/** The question a bend spec answers; the same schema checks a file, a request and a script, and is published as JSON Schema. */
export const specInput = z
  .strictObject(
    {
      tube,
      material,
      bends: z.array(bend, 'a list of bends').min(1, '1 to 100 bends').max(100, '1 to 100 bends'),
      straightAfterMm: notNegative,
      method,
      press,
      die: z.strictObject({ surfaceRadiusMm: positive }).optional(),
      springbackFactor: positive.optional(),
      trimMm: notNegative.optional(),
      kerfMm: notNegative.optional(),
      startReachMm: notNegative.optional(),
      endReachMm: notNegative.optional(),
      sectionToleranceFraction: fraction.optional(),
      weldedAfter: z.boolean('true or false').optional(),
    },
    'an object',
  )
  .superRefine((given, context) => {
    for (const [index, one] of given.bends.entries()) {
      if (one.centrelineRadiusMm <= given.tube.heightMm / 2) {
        context.addIssue({
          code: 'custom',
          path: ['bends', index, 'centrelineRadiusMm'],
          message: `above half the height, ${given.tube.heightMm / 2}`,
          input: one.centrelineRadiusMm,
        })
      }
      if (index === 0 && one.rotationDeg !== 0) {
        context.addIssue({
          code: 'custom',
          path: ['bends', 0, 'rotationDeg'],
          message: '0 for the first bend',
          input: one.rotationDeg,
        })
      }
    }
  }) satisfies z.ZodType<SpecInput, SpecInput>

function pathText(path: readonly PropertyKey[]): string {
  return path.reduce<string>(
    (text, key) => (typeof key === 'number' ? `${text}[${key}]` : `${text}${text ? '.' : ''}${String(key)}`),
    '',
  )
}

function valueAt(whole: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (value, key) =>
      typeof value === 'object' && value !== null && Object.hasOwn(value, key)
        ? (value as Record<PropertyKey, unknown>)[key]
        : undefined,
    whole,
  )
}

function shown(value: unknown): string {
  if (value === undefined) return 'nothing'
  const text = typeof value === 'number' ? String(value) : JSON.stringify(value)
  return text.length > 60 ? `${text.slice(0, 57)}...` : text
}

export type SpecParsed = { ok: true; input: SpecInput } | { ok: false; faults: SpecFault[] }

/** Reads a question; every fault names its field, what was met and what is allowed. */
export function parseSpec(json: unknown): SpecParsed {
  const parsed = specInput.safeParse(json)
  if (parsed.success) return { ok: true, input: parsed.data }
  const faults = parsed.error.issues.flatMap((issue): SpecFault[] => {
    if (issue.code === 'unrecognized_keys') {
      return issue.keys.map((key) => ({
        path: pathText([...issue.path, key]),
        met: 'an unknown field',
        allowed: 'no such field',
      }))
    }
    const met = shown(valueAt(json, issue.path))
    const allowed =
      met === 'nothing' && issue.code === 'invalid_type' ? `required: ${issue.message}` : issue.message
    return [{ path: pathText(issue.path) || 'the whole question', met, allowed }]
  })
  return { ok: false, faults }
}

/** What to expect of a bend on one day, 19 times in 20, and how near trial pieces of the same lot bring the next one. */
export type Expected = BendSpread & {
  trialPieces: { pieceCount: number; nextPiecePlusMinusDeg: number }
}
export type AnsweredSpec = Omit<SpecAnswer, 'bends'> & { bends: (BendAnswer & { expect: Expected })[] }

function withExpectation(input: SpecInput, answer: SpecAnswer): AnsweredSpec {
  const spreads = specUncertainty(input)
  const bends = answer.bends.map((bend, index) => {
    const spread = spreads[index]
    if (!spread) throw new RangeError(`bend ${index + 1} has no spread`)
    const { nextPieceSdDeg } = afterTrialPieces({ sdDeg: spread.finalAngleDeg.sd, ...usualTrial })
    const trialPieces = { pieceCount: usualTrial.pieceCount, nextPiecePlusMinusDeg: 2 * nextPieceSdDeg }
    return { ...bend, expect: { ...spread, trialPieces } }
  })
  return { ...answer, bends }
}

/** Parse and answer in one: what the command and the web address share. */
export function answerSpec(
  json: unknown,
): { ok: true; answer: AnsweredSpec } | { ok: false; faults: readonly SpecFault[] } {
  const parsed = parseSpec(json)
  if (!parsed.ok) return parsed
  try {
    return { ok: true, answer: withExpectation(parsed.input, bendSpec(parsed.input)) }
  } catch (cause) {
    if (cause instanceof SpecRefusal) return { ok: false, faults: cause.faults }
    throw cause
  }
}

/** The question as JSON Schema. */
export function specJsonSchema(): object {
  return z.toJSONSchema(specInput, { io: 'input', target: 'draft-2020-12' })
}
