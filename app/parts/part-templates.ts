import { marksOf } from '@/app/_paper/job-traveller'
import type { EndCut } from '@/lib/core/drawing/part'
import { bendSpec } from '@/lib/core/spec/bend-spec'
import { type SpecAnswer, type SpecInput, SpecRefusal } from '@/lib/core/spec/contract'
import { bendCheckTemplate } from '@/lib/core/templates/bend-check'
import { dieProfileTemplate } from '@/lib/core/templates/die-profile'
import type { Template } from '@/lib/core/templates/primitive'
import { rectangularMitreTemplate } from '@/lib/core/templates/rectangular-wrap'
import { mitreWrapTemplate, saddleWrapTemplate } from '@/lib/core/templates/round-wrap'
import { scribingStripTemplate } from '@/lib/core/templates/scribing-strip'
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
  endTemplate(found, add, revision, revision.startCut, 'datum end', name)
  endTemplate(found, add, revision, revision.endCut, 'far end', name)
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
    return { spec: bendSpec(input), because: '' }
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

function endTemplate(
  found: PartTemplates,
  add: (key: string, make: () => Template) => void,
  tube: RevisionFacts,
  cut: EndCut,
  end: 'datum end' | 'far end',
  name: (what: string) => string,
): void {
  const key = end === 'datum end' ? 'datum-end' : 'far-end'
  if (cut.kind === 'square') return
  if (cut.kind === 'saddle') {
    if (tube.shape !== 'round') {
      found.missing.push(
        `Saddle, ${end}: there is no wrap for a square or rectangular tube. Scribe it on the joint itself.`,
      )
      return
    }
    add(key, () =>
      saddleWrapTemplate({
        branchRadiusMm: tube.widthMm / 2,
        mainRadiusMm: cut.onDiameterMm / 2,
        axesAngleDeg: cut.angleDeg ?? 90,
        name: name(end),
      }),
    )
    return
  }
  if (tube.shape === 'round') {
    add(key, () =>
      mitreWrapTemplate({ outsideRadiusMm: tube.widthMm / 2, cutAngleDeg: cut.angleDeg, name: name(end) }),
    )
    return
  }
  const turnedDeg = Math.abs(cut.rotationDeg ?? 0) % 180
  if (turnedDeg !== 0 && turnedDeg !== 90) {
    found.missing.push(
      `Mitre, ${end}: turned ${turnedDeg}° about the tube, it runs over the corners, and there is no wrap for that. Scribe it with a square and a bevel.`,
    )
    return
  }
  const across = turnedDeg === 90
  add(key, () =>
    rectangularMitreTemplate({
      widthMm: across ? tube.heightMm : tube.widthMm,
      heightMm: across ? tube.widthMm : tube.heightMm,
      ...(tube.cornerRadiusMm !== null && { cornerRadiusMm: tube.cornerRadiusMm }),
      cutAngleDeg: Math.abs(cut.angleDeg),
      name: name(end),
    }),
  )
}
