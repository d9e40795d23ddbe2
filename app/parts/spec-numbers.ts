import type { NumberChain } from '@/app/_paper/numbers-document'
import type { SpecInput } from '@/lib/core/spec/contract'
import { explainedSpec } from '@/lib/core/spec/explain'
import type { LengthUnit } from '@/lib/core/units'
import { defaultInWords, inputShown } from './_spec/spec-shown'

/** What each number is called; a step on the way keeps the name it has in the record, in words. */
const names: Readonly<Record<string, string>> = {
  loadedAngleDeg: 'angle to load to',
  angleAtPressDeg: 'angle at the press',
  finalAngleDeg: 'finished angle',
  springbackDeg: 'springback',
  meltOutSpringbackDeg: 'springback at melt-out',
  dieSurfaceRadiusMm: 'die surface radius',
  finalRadiusMm: 'radius that comes out',
  pressForceKn: 'press force',
  ramTravelMm: 'ram travel',
  freeLengthMm: 'free length at full angle',
  developedLengthMm: 'developed length',
  cutLengthMm: 'cut length',
  'filler.massKg': 'filler for one piece',
  'wallOutsideMm.expected': 'outer wall after the bend',
  'wallInsideMm.expected': 'inner wall after the bend',
}

function nameOf(key: string): string {
  const bend = /^bends\.(\d+)\.(.+)$/.exec(key)
  const what = bend ? (bend[2] ?? key) : key
  const words =
    names[what] ??
    what
      .replace(/(MPa|Nmm|Mm2|Mm3|Mm4|Mm|Deg|Kn|Kg|N)(?=\.|$)/g, '')
      .replace(/([a-z])([A-Z])/g, '$1 $2')
      .replaceAll('.', ', ')
      .toLowerCase()
  return bend ? `Bend ${Number(bend[1]) + 1}: ${words}` : words
}

function shown(value: number | string, unit: string | undefined, lengthUnit: LengthUnit): string {
  const text = inputShown(value, unit, lengthUnit)
  return text.unit ? `${text.value}${text.unit === '°' ? '' : ' '}${text.unit}` : text.value
}

/** Every number of a bend spec with its formula, inputs and source, each once, in the order they are needed. */
export function specNumbers(
  input: SpecInput,
  lengthUnit: LengthUnit,
): { chains: NumberChain[]; modelVersion: string; defaultsUsed: string[] } {
  const { answer, trace } = explainedSpec(input)
  const seen = new Set<string>()
  const links = trace.keys.flatMap((key) =>
    trace.chain(key).filter((link) => {
      const isNew = !seen.has(link.key)
      seen.add(link.key)
      return isNew
    }),
  )
  return {
    modelVersion: answer.modelVersion,
    defaultsUsed: answer.defaultsUsed.map(defaultInWords),
    chains: links.map((link) => ({
      name: nameOf(link.key),
      valueText: shown(link.value, link.unit, lengthUnit),
      formula: link.formula,
      inputs: link.inputs.map(([symbol, value, unit, from]) => ({
        name: symbol,
        valueText: shown(value, unit, lengthUnit),
        from: from === undefined ? 'entered or set' : nameOf(from),
      })),
      source: link.source,
      trust: link.trust,
    })),
  }
}
