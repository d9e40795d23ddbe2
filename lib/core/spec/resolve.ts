import { type Alloy, alloyById } from '@/lib/core/materials/alloys'
import { defaultFiller, drySand, fillerById } from '@/lib/core/materials/fillers'
import type { Filler } from '@/lib/core/materials/low-melt'
import { ownFillerFault, ownLowMelt } from '@/lib/core/materials/own-filler'
import { BentTube, type Support } from '@/lib/core/mechanics/bent-tube'
import { hardeningExponent, type TubeMaterial, uniformStrain } from '@/lib/core/mechanics/material-curve'
import type { Press } from '@/lib/core/mechanics/press'
import type { Tube } from '@/lib/core/mechanics/section'
import type { Strap } from '@/lib/core/mechanics/yielding-strip'
import { type SpecInput, type SpecMaterial, SpecRefusal } from '@/lib/core/spec/contract'

/** Packed sand's stiffness, MPa. Source: common practice, no source. */
const sandModulusMPa = 60
const defaultFriction = 0.15
export const defaultPressUse = 0.8

export type Resolved = Readonly<{
  input: SpecInput
  alloy: Alloy | null
  material: TubeMaterial
  tube: Tube
  support: Support
  filler: Filler | null
  strap: Strap | null
  press: Press
  springbackFactor: number
  defaultsUsed: string[]
  /** The bent tube at the typical strengths, and at these times a factor with the uniform strain held. */
  bentTube: (strengthFactor: number) => BentTube
}>

function resolveMaterial(given: SpecMaterial): { alloy: Alloy | null; material: TubeMaterial } {
  const alloy = given.id === undefined ? null : (alloyById(given.id) ?? null)
  if (given.id !== undefined && !alloy) {
    throw new SpecRefusal([
      { path: 'material.id', met: JSON.stringify(given.id), allowed: 'an id of the material table' },
    ])
  }
  const missing: string[] = []
  const take = <
    Key extends
      | 'family'
      | 'elasticModulusMPa'
      | 'yieldMPa'
      | 'tensileMPa'
      | 'elongationPct'
      | 'poisson'
      | 'densityKgM3',
  >(
    key: Key,
  ): NonNullable<SpecMaterial[Key]> => {
    const value = given[key] ?? alloy?.[key]
    if (value === undefined) missing.push(key)
    return value as NonNullable<SpecMaterial[Key]>
  }
  const material: TubeMaterial = {
    family: take('family'),
    elasticModulusMPa: take('elasticModulusMPa'),
    yieldMPa: take('yieldMPa'),
    tensileMPa: take('tensileMPa'),
    elongationPct: take('elongationPct'),
    poisson: take('poisson'),
    densityKgM3: take('densityKgM3'),
    uniformStrain: given.uniformStrain ?? alloy?.uniformStrain,
    reductionOfAreaPct: given.reductionOfAreaPct ?? alloy?.reductionOfAreaPct,
  }
  if (missing.length > 0) {
    throw new SpecRefusal(
      missing.map((key) => ({
        path: `material.${key}`,
        met: 'nothing',
        allowed: 'required without a material id',
      })),
    )
  }
  if (!(material.tensileMPa > material.yieldMPa)) {
    throw new SpecRefusal([
      {
        path: 'material.tensileMPa',
        met: String(material.tensileMPa),
        allowed: `above the yield, ${material.yieldMPa} MPa`,
      },
    ])
  }
  return { alloy, material }
}

/** The table's alloy or the one that the question describes; undefined where it names none. */
function namedFiller({ fillerId, ownFiller, support }: SpecInput['method']): Filler | undefined {
  if (!ownFiller) return fillerId === undefined ? undefined : fillerById(fillerId)
  const refuse = (path: string, met: string, allowed: string) => new SpecRefusal([{ path, met, allowed }])
  if (fillerId !== undefined)
    throw refuse('method.fillerId', JSON.stringify(fillerId), 'nothing beside an ownFiller')
  if (support === 'sand') throw refuse('method.ownFiller', JSON.stringify(ownFiller.id), 'only with lowMelt')
  const fault = ownFillerFault(ownFiller)
  if (fault) throw refuse(`method.ownFiller.${fault.field}`, fault.met, fault.allowed)
  return ownLowMelt(ownFiller)
}

function resolveFiller(
  input: SpecInput,
  defaultsUsed: string[],
): { filler: Filler | null; support: Support } {
  const { method } = input
  const named = namedFiller(method)
  const isOther = method.support !== 'hollow' && named?.kind !== method.support
  if (method.fillerId !== undefined && (!named || isOther)) {
    const kind =
      method.support === 'sand' ? 'a sand' : method.support === 'lowMelt' ? 'a low-melt filler' : 'an id'
    throw new SpecRefusal([
      {
        path: 'method.fillerId',
        met: JSON.stringify(method.fillerId),
        allowed: `${kind} of the filler table`,
      },
    ])
  }
  if (method.support === 'hollow') return { filler: null, support: { kind: 'hollow' } }
  if (method.support === 'sand') {
    if (method.fillerModulusMPa === undefined) defaultsUsed.push(`method.fillerModulusMPa ${sandModulusMPa}`)
    return {
      filler: named ?? drySand,
      support: { kind: 'sand', modulusMPa: method.fillerModulusMPa ?? sandModulusMPa },
    }
  }
  const filler = named?.kind === 'lowMelt' ? named : defaultFiller
  if (!named) defaultsUsed.push(`method.fillerId ${filler.id}`)
  const own = method.ownFiller
  if (method.fillerYieldMPa === undefined && own?.yieldMPa === undefined)
    defaultsUsed.push(`method.fillerYieldMPa ${filler.yieldMPa}`)
  if (method.fillerModulusMPa === undefined && own?.elasticModulusMPa === undefined)
    defaultsUsed.push(`method.fillerModulusMPa ${filler.elasticModulusMPa}`)
  return {
    filler,
    support: {
      kind: 'lowMelt',
      modulusMPa: method.fillerModulusMPa ?? filler.elasticModulusMPa,
      yieldMPa: method.fillerYieldMPa ?? filler.yieldMPa,
    },
  }
}

function resolveTube(
  input: Pick<SpecInput, 'tube'>,
  family: TubeMaterial['family'],
  defaultsUsed: string[],
): Tube {
  const { tube } = input
  const halfMm = Math.min(tube.widthMm, tube.heightMm) / 2
  if (tube.shape === 'round') return { ...tube, cornerRadiusMm: halfMm }
  if (tube.cornerRadiusMm !== undefined) return { ...tube, cornerRadiusMm: tube.cornerRadiusMm }
  const cornerRadiusMm = family === 'aluminium' ? 0 : Math.min(2 * tube.wallMm, halfMm)
  defaultsUsed.push(`tube.cornerRadiusMm ${cornerRadiusMm}`)
  return { ...tube, cornerRadiusMm }
}

/** Tube and material with what the question leaves out of them filled in. */
export function resolveSection(
  input: Pick<SpecInput, 'tube' | 'material'>,
): Pick<Resolved, 'tube' | 'material'> {
  const { material } = resolveMaterial(input.material)
  return { material, tube: resolveTube(input, material.family, []) }
}

/** Fills in what the question leaves out, from the tables and the usual values, and notes each default it used. */
export function resolveSpec(input: SpecInput): Resolved {
  const defaultsUsed: string[] = []
  const { alloy, material } = resolveMaterial(input.material)
  if (material.uniformStrain === undefined)
    defaultsUsed.push(`material.uniformStrain ${uniformStrain(material)}`)
  hardeningExponent(material)
  const tube = resolveTube(input, material.family, defaultsUsed)
  const { filler, support } = resolveFiller(input, defaultsUsed)
  const { strap: givenStrap } = input.method
  if (givenStrap && givenStrap.frictionCoeff === undefined)
    defaultsUsed.push(`method.strap.frictionCoeff ${defaultFriction}`)
  if (input.press.supportFrictionCoeff === undefined)
    defaultsUsed.push(`press.supportFrictionCoeff ${defaultFriction}`)
  if (input.press.useFraction === undefined) defaultsUsed.push(`press.useFraction ${defaultPressUse}`)
  if (input.springbackFactor === undefined) defaultsUsed.push('springbackFactor 1')
  for (const key of ['trimMm', 'kerfMm'] as const) if (input[key] === undefined) defaultsUsed.push(`${key} 0`)
  const strap = givenStrap
    ? { ...givenStrap, frictionCoeff: givenStrap.frictionCoeff ?? defaultFriction }
    : null
  const held = uniformStrain(material)
  return {
    input,
    alloy,
    material,
    tube,
    support,
    filler,
    strap,
    press: { ...input.press, supportFrictionCoeff: input.press.supportFrictionCoeff ?? defaultFriction },
    springbackFactor: input.springbackFactor ?? 1,
    defaultsUsed,
    bentTube: (strengthFactor) =>
      new BentTube(
        tube,
        {
          ...material,
          uniformStrain: held,
          yieldMPa: material.yieldMPa * strengthFactor,
          tensileMPa: material.tensileMPa * strengthFactor,
        },
        support,
        strap,
      ),
  }
}
