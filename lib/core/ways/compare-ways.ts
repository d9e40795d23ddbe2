import { type WayKey, wayKeys, wayNames } from '@/lib/core/cost/ways'
import { alloyById } from '@/lib/core/materials/alloys'
import { said } from '@/lib/core/sentence'
import { answerBentWay, temperOf } from '@/lib/core/ways/bent-way'
import { mitredBuild } from '@/lib/core/ways/mitred'
import type { WaysQuestion } from '@/lib/core/ways/question'
import type { WayAnswer } from '@/lib/core/ways/way-answer'

/** A saw set by hand and weld pull: plus or minus, before straightening. Source: common practice, no source. */
const mitredAngleDeg = 1

const hollow = { support: 'hollow' as const, strap: false }

/** Every way of making the part, in the order a shop thinks of them, each with its yes or no and the number behind it. */
export function compareWays(question: WaysQuestion): WayAnswer[] {
  return wayKeys.map((way) => answerWay(question, way))
}

/** One way of making the part. */
export function answerWay(question: WaysQuestion, way: WayKey): WayAnswer {
  if (way === 'mitredWelded') return mitredAnswer(question)
  if (way === 'outside') return outsideAnswer(question)
  return answerBentWay(question, way)
}

function mitredAnswer(question: WaysQuestion): WayAnswer {
  const { spec } = question
  const { temper, ruledOut } = temperOf(question, 'mitredWelded')
  const build = mitredBuild(spec.tube, spec.bends, spec.straightAfterMm)
  const offsetMm = Math.max(0, ...build.joints.map(({ cornerOffsetMm }) => cornerOffsetMm))
  const shared = {
    way: 'mitredWelded' as const,
    name: wayNames.mitredWelded,
    ...hollow,
    governing: null,
    remedies: [],
    spec: null,
    temper,
    mitred: build,
  }
  if (!temper) {
    return {
      ...shared,
      word: 'no',
      because: ruledOut ?? 'No welded strength is known for this material.',
      tolerance: { angleDeg: null, sectionLossFraction: null, text: 'not worked out' },
      needs: [],
      warnings: [],
    }
  }
  const alloy = alloyById(spec.material.id ?? '')
  const whole = alloy?.minimumYieldMPa ?? spec.material.yieldMPa ?? alloy?.yieldMPa
  return {
    ...shared,
    word: 'doubtful',
    because: `${build.joints.length} welded ${build.joints.length === 1 ? 'corner stands' : 'corners stand'} up to ${said.mm(offsetMm)} outside the drawn arc, and yield beside the welds is ${said.mpa(temper.yieldMPa)}${whole === undefined ? '' : ` of ${said.mpa(whole)}`}: the customer has to agree`,
    tolerance: {
      angleDeg: mitredAngleDeg,
      sectionLossFraction: 0,
      text: `±${mitredAngleDeg}° from saw and weld pull (common practice, no source); no section loss`,
    },
    needs: [
      {
        what: 'fixture',
        text: `a fixture to tack ${build.pieces.length} straights in, and a welder`,
        have: false,
      },
    ],
    warnings: [
      'A corner is not a smooth bend: stress gathers at it, and it lies in the heat of its own weld.',
      ...(question.couldHurt
        ? ['A failure could hurt someone: a licensed engineer decides about welds here.']
        : []),
    ],
  }
}

function outsideAnswer(question: WaysQuestion): WayAnswer {
  const { temper } = temperOf(question, 'outside')
  const count = question.outsideQuoteCount ?? 0
  return {
    way: 'outside',
    name: wayNames.outside,
    ...hollow,
    word: count > 0 ? 'yes' : 'doubtful',
    because:
      count > 0
        ? `${count} outside ${count === 1 ? 'bender has' : 'benders have'} given a price`
        : 'no outside bender has given a price yet: ask',
    governing: null,
    remedies: [],
    tolerance: {
      angleDeg: null,
      sectionLossFraction: null,
      text: 'what they promise: give them the final angle and its tolerance',
    },
    temper,
    needs: [{ what: 'source', text: 'a price from an outside bender', have: count > 0 }],
    warnings: [],
    spec: null,
    mitred: null,
  }
}
