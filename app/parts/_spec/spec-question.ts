import { Trace } from '@/lib/core/mechanics/trace'
import { bendSpec, rememberedSpec } from '@/lib/core/spec/bend-spec'
import { type SpecAnswer, type SpecFault, type SpecInput, SpecRefusal } from '@/lib/core/spec/contract'
import type { ShopUnits } from '@/lib/records/fields'
import { methodText } from '@/lib/records/lesson/rules'
import { type RevisionFacts, type SpecOverrides, specInputOf } from '@/lib/records/part/rules'
import { chosenTools, setupFault, type Tooling } from '@/lib/records/setup/rules'
import { type SetupTyped, setupForm } from '@/lib/records/setup/schema'
import { parseSpec } from '@/lib/records/spec/schema'

export type ShopAllowances = { pressUseFraction: number; trimMm: number; kerfMm: number }
export type LearnedFactors = Readonly<Record<string, { factor: number; sd: number; text: string }>>

/** All that a bend spec on the part's screen is made from, apart from the set-up being chosen. */
export type SpecGround = {
  revision: RevisionFacts
  tooling: Tooling
  units: ShopUnits
  shop: ShopAllowances
  ownMaterial: SpecOverrides['material'] | null
  learned: LearnedFactors
}

export type Asked =
  | {
      state: 'answered'
      input: SpecInput
      answer: SpecAnswer
      trace: () => Trace
      learnedText: string | null
      /** How far the learned springback factor may be off; null before the first bend. */
      factorSd: number | null
    }
  | { state: 'refused'; faults: readonly SpecFault[] }
  /** The set-up itself is not whole yet: what is missing, by field. */
  | { state: 'unready'; fields: Record<string, string> }

/** Answers what the set-up as typed would do to the part. */
export function askSpec(ground: SpecGround, typed: SetupTyped): Asked {
  const parsed = setupForm(ground.units).safeParse(typed)
  if (!parsed.success) {
    return {
      state: 'unready',
      fields: Object.fromEntries(
        parsed.error.issues.map(({ path, message }) => [path.join('.'), message] as const).reverse(),
      ),
    }
  }
  const tools = chosenTools(parsed.data, ground.tooling)
  if (!tools) return { state: 'unready', fields: { pressId: 'Choose a press' } }
  const misfit = setupFault(tools, ground.units.lengthUnit)
  if (misfit) return { state: 'unready', fields: { [misfit.field]: misfit.message } }
  const learned = ground.learned[methodText({ support: tools.support, strap: tools.strap !== null })]
  const input = specInputOf(ground.revision, tools, ground.shop, {
    ...(ground.ownMaterial && { material: ground.ownMaterial }),
    ...(learned && { springbackFactor: learned.factor }),
  })
  const parsedInput = parseSpec(input)
  if (!parsedInput.ok) return { state: 'refused', faults: parsedInput.faults }
  try {
    const answer = rememberedSpec(input)
    return {
      state: 'answered',
      input,
      answer,
      trace: traceOf(input),
      learnedText: learned?.text ?? null,
      factorSd: learned?.sd ?? null,
    }
  } catch (cause) {
    if (cause instanceof SpecRefusal) return { state: 'refused', faults: cause.faults }
    throw cause
  }
}

/** How the numbers of a spec came about: worked out once somebody asks, as it takes longer than the spec itself. */
function traceOf(input: SpecInput): () => Trace {
  let kept: Trace | undefined
  return () => {
    if (!kept) {
      kept = new Trace()
      bendSpec(input, kept)
    }
    return kept
  }
}

const fieldOfPath: readonly (readonly [RegExp, string])[] = [
  [/^press\.supportSpanMm/, 'supportSpanMm'],
  [/^press\./, 'pressId'],
  [/^method\.strap/, 'strapId'],
  [/^method\.(filler|ownFiller)/, 'fillerId'],
  [/^die\./, 'dieId'],
]

/** The model's refusals by the field of the set-up they concern. */
export function faultsAtFields(asked: Asked): Record<string, string> {
  if (asked.state === 'unready') return asked.fields
  if (asked.state === 'answered') return {}
  const entries = asked.faults.flatMap(({ path, met, allowed }) => {
    const field = fieldOfPath.find(([pattern]) => pattern.test(path))?.[1]
    return field ? [[field, `${met}; it takes ${allowed}`] as const] : []
  })
  return Object.fromEntries(entries)
}

/** What a fault's path means on the screen: 'bends[1].angleDeg' is the angle of bend 2. */
export function faultPlace(path: string): { words: string; bend: number | null } {
  const bend = /^bends\[(\d+)\]\.(\w+)/.exec(path)
  if (bend) {
    const what = { angleDeg: 'angle', centrelineRadiusMm: 'radius', rotationDeg: 'rotation' }[bend[2] ?? '']
    return { words: `Bend ${Number(bend[1]) + 1}, ${what ?? 'straight before'}`, bend: Number(bend[1]) }
  }
  const words: Readonly<Record<string, string>> = {
    'press.supportSpanMm': 'Span between supports',
    'method.strap': 'Strap',
    'die.surfaceRadiusMm': 'Die',
    'material.id': 'Material',
    'tube.wallMm': 'Wall',
  }
  return { words: words[path] ?? path, bend: null }
}
