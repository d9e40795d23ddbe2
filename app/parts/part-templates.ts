import { marksOf } from '@/app/_paper/job-traveller'
import { alloyById } from '@/lib/core/materials/alloys'
import { rememberedSpec } from '@/lib/core/spec/bend-spec'
import { type SpecAnswer, type SpecInput, SpecRefusal } from '@/lib/core/spec/contract'
import { resolveSection } from '@/lib/core/spec/resolve'
import { bendCheckTemplate } from '@/lib/core/templates/bend-check'
import { dieProfileTemplate } from '@/lib/core/templates/die-profile'
import { endWrapTemplate } from '@/lib/core/templates/end-wrap'
import type { Template } from '@/lib/core/templates/primitive'
import { scribingStripTemplate } from '@/lib/core/templates/scribing-strip'
import type { WrappedTube } from '@/lib/core/templates/unrolled'
import type { RevisionFacts } from '@/lib/records/part/rules'

/** One true-size drawing of a part, by the name it has in its address. */
export type NamedTemplate = { key: string; template: Template }

/** What a part has templates for, and why it has none of the others. */
export type PartTemplates = { templates: NamedTemplate[]; missing: string[] }

export function partTemplates(
  identity: { partNumber: string; letter: string },
  revision: RevisionFacts,
  input: SpecInput | null,
): PartTemplates {
  const asked = answered(input)
  const found: PartTemplates = { templates: [], missing: [] }
  const name = (what: string) => `${identity.partNumber} ${identity.letter} ${what}`
  const add = (key: string, make: () => Template) => {
    try {
      found.templates.push({ key, template: make() })
    } catch (cause) {
      if (!(cause instanceof RangeError)) throw cause
      found.missing.push(cause.message)
    }
  }
  revision.bends.forEach((bend, index) => {
    add(`bend-${index + 1}`, () =>
      bendCheckTemplate({
        finalAngleDeg: bend.angleDeg,
        finalRadiusMm: bend.centrelineRadiusMm,
        tubeHeightMm: heightInPlaneMm(revision, index),
        angleToleranceDeg: revision.angleToleranceDeg,
        name: name(`bend ${index + 1}`),
      }),
    )
  })
  if (asked.spec) {
    for (const { radiusMm, wrappedDeg, bends } of diesOf(asked.spec)) {
      add(`die-${bends[0]}`, () =>
        dieProfileTemplate({
          surfaceRadiusMm: radiusMm,
          wrappedAngleDeg: wrappedDeg,
          name: name(`${bends.length === 1 ? 'bend' : 'bends'} ${bends.join(', ')}`),
        }),
      )
    }
  }
  for (const [end, cut] of [
    ['datum', revision.startCut],
    ['far', revision.endCut],
  ] as const) {
    if (cut.kind === 'square') continue
    add(`${end}-end`, () =>
      endWrapTemplate({
        tube: wrappedTube(revision, input),
        cut,
        end,
        isBent: revision.bends.length > 0,
        name: name(`${end} end`),
        cornersAreTaken: revision.cornerRadiusMm === null,
      }),
    )
  }
  const blank = asked.spec && input ? marksOf(revision, { spec: asked.spec, input }) : null
  if (blank) {
    add('strip', () =>
      scribingStripTemplate({
        blankLengthMm: blank.blankLengthMm,
        marks: blank.marks,
        name: name('blank'),
      }),
    )
  } else {
    found.missing.push(`Die profile and scribing strip: ${asked.because}`)
  }
  return found
}

function answered(input: SpecInput | null): { spec: SpecAnswer | null; because: string } {
  if (!input) return { spec: null, because: 'choose a set-up for the part first.' }
  try {
    return { spec: rememberedSpec(input), because: '' }
  } catch (cause) {
    if (cause instanceof SpecRefusal) return { spec: null, because: cause.message }
    throw cause
  }
}

/** A bend turned a quarter about the tube has the tube's width in its plane. */
function heightInPlaneMm({ bends, widthMm, heightMm }: RevisionFacts, index: number): number {
  const turnedDeg = bends.slice(0, index + 1).reduce((sum, { rotationDeg }) => sum + rotationDeg, 0)
  const quarter = Math.abs(Math.round(turnedDeg / 90)) % 2
  return Math.abs(turnedDeg % 90) < 1e-6 && quarter === 1 ? widthMm : heightMm
}

/** One die serves all bends of its radius, as far round as the widest of them wraps. */
function diesOf(spec: SpecAnswer): { radiusMm: number; wrappedDeg: number; bends: number[] }[] {
  const dies = new Map<string, { radiusMm: number; wrappedDeg: number; bends: number[] }>()
  spec.bends.forEach((bend, index) => {
    const key = bend.dieSurfaceRadiusMm.toFixed(1)
    const die = dies.get(key) ?? { radiusMm: bend.dieSurfaceRadiusMm, wrappedDeg: 0, bends: [] }
    die.wrappedDeg = Math.max(die.wrappedDeg, bend.wrappedAngleDeg)
    die.bends.push(index + 1)
    dies.set(key, die)
  })
  return [...dies.values()]
}

/** Corners that nobody entered are those the bend spec takes: the paper's girth depends on them. */
function wrappedTube(revision: RevisionFacts, input: SpecInput | null): WrappedTube {
  const { shape, widthMm, heightMm, cornerRadiusMm } = revision
  if (shape === 'round') return { shape, widthMm, heightMm }
  const known = input ?? (alloyById(revision.materialId) ? questionOf(revision) : null)
  const radiusMm = cornerRadiusMm ?? (known ? resolveSection(known).tube.cornerRadiusMm : 0)
  return { shape, widthMm, heightMm, cornerRadiusMm: radiusMm }
}

function questionOf({ shape, widthMm, heightMm, wallMm, materialId }: RevisionFacts) {
  return { tube: { shape, widthMm, heightMm, wallMm }, material: { id: materialId } }
}
