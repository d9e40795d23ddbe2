'use client'

import { PressDrawing } from '@/app/_drawing/press-drawing'
import { SectionDrawing } from '@/app/_drawing/section-drawing'
import { AskNumber } from '@/app/_ui/ask-number'
import { Facts } from '@/app/_ui/section'
import { Verdict } from '@/app/_ui/verdict'
import { readSentence } from '@/lib/core/sentence'
import { AimExpect } from './aim-expect'
import { ForceTravel } from './force-travel'
import { type SpecAsked, type SpecNumber, specChain, specNumber } from './spec-chains'
import { angleShown, forceShown, isHeld, lengthShown, rangeText } from './spec-shown'
import { checkWords, verdictShown } from './worst-verdict'

/** One bend in full: set-points, tube after the bend, verdicts, both drawings. */
export function BendDetails(asked: SpecAsked & { factorSd: number | null }) {
  const { bend, input, unit, index, factorSd } = asked
  const ask = (number: SpecNumber) => (
    <AskNumber of={specNumber(number, asked)} chain={() => specChain(number, asked, true)} />
  )
  const span = (text: string | undefined, of: string) =>
    text === undefined ? null : (
      <span className="muted small nowrap"> {`(${text}${of === '°' ? '' : '\u00a0'}${of})`}</span>
    )
  const length = (mm: number) => lengthShown(mm, unit)
  const force = (kn: number) => forceShown(kn, unit)
  const filled = input.method.support === 'lowMelt'
  const round = input.tube.shape === 'round'
  const walls = (low: number, high: number) => {
    const shown = (mm: number) => lengthShown(mm, unit, 2).value
    return low === high ? null : (
      <span className="muted small nowrap">{` (${shown(low)} to ${shown(high)}\u00a0${unit})`}</span>
    )
  }
  return (
    <div className="stack" data-bend={index}>
      <h3>Bend {index + 1}</h3>
      <AimExpect input={input} index={index} aimDeg={bend.loadedAngleDeg} factorSd={factorSd} />
      <div className="split split-even">
        <div className="stack">
          <Facts
            facts={[
              ['Wanted angle', ask('wantedAngle')],
              ['Load to', ask('loadedAngle')],
              [filled ? 'At the press, filler in' : 'Ram backed off', ask('angleAtPress')],
              [filled ? 'After melt-out' : 'Finished', ask('finalAngle')],
              [
                'Springback',
                <span key="springback">
                  {ask('springback')}
                  {span(rangeText(bend.range?.springbackDeg, angleShown), '°')}
                </span>,
              ],
              [
                input.die ? 'Die, as chosen' : 'Die to make, surface radius',
                <span key="die">
                  {ask('dieRadius')}
                  {!input.die && span(rangeText(bend.range?.dieSurfaceRadiusMm, length), unit)}
                </span>,
              ],
              ['Radius that comes out', ask('finalRadius')],
              [
                'Press force',
                <span key="force">
                  {ask('pressForce')}
                  {span(rangeText(bend.range?.pressForceKn, force), force(0).unit ?? '')}
                </span>,
              ],
              ['Ram travel', ask('ramTravel')],
              ['Free length at full angle', ask('freeLength')],
            ]}
          />
          {bend.endShiftMm !== undefined && (
            <p className="muted small">
              On this die the part’s end lands {lengthShown(bend.endShiftMm, unit).value} {unit} from where
              the drawing has it, this bend alone.
            </p>
          )}
        </div>
        <div>
          <Facts
            facts={[
              [
                'Wall outside',
                <span key="outside">
                  {ask('wallOutside')}
                  {walls(bend.wallOutsideMm.low, bend.wallOutsideMm.high)}
                </span>,
              ],
              [
                'Wall inside',
                <span key="inside">
                  {ask('wallInside')}
                  {walls(bend.wallInsideMm.low, bend.wallInsideMm.high)}
                </span>,
              ],
              ...(round
                ? ([['Ovality', ask('ovality')]] as const)
                : ([
                    ['Outer face', ask('widthOutside')],
                    ['Inner face', ask('widthInside')],
                    ['Sag of a face', ask('sag')],
                  ] as const)),
              ['Stretch outside', ask('stretch')],
              ['Of the stretch allowed', ask('tear')],
            ]}
          />
        </div>
      </div>
      <ul className="ruled-list">
        {bend.verdicts.map((verdict) => {
          const shown = verdictShown(verdict)
          return (
            <li key={verdict.check} className="verdict-line">
              <span className="muted">{checkWords[verdict.check]}</span>
              <Verdict word={shown.word}>{readSentence(shown.text, unit)}</Verdict>
            </li>
          )
        })}
      </ul>
      <SectionDrawing
        tube={input.tube}
        units={unit}
        after={{
          widthOutsideMm: bend.widthOutsideMm,
          widthInsideMm: bend.widthInsideMm,
          sagMm: isHeld(bend.flangeSagMm) ? undefined : bend.flangeSagMm,
          ovalityPct: bend.ovalityPct,
          wallOutsideMm: bend.wallOutsideMm.expected,
          wallInsideMm: bend.wallInsideMm.expected,
        }}
      />
      <PressDrawing
        units={unit}
        filler={input.method.support}
        travelMm={bend.ramTravelMm}
        setUp={{
          heightMm: input.tube.heightMm,
          spanMm: input.press.supportSpanMm,
          noseRadiusMm: input.press.supportNoseRadiusMm,
          dieSurfaceRadiusMm: bend.dieSurfaceRadiusMm,
          wrappedAngleDeg: bend.wrappedAngleDeg,
          strapThicknessMm: input.method.strap?.thicknessMm,
        }}
      />
      <ForceTravel bend={bend} unit={unit} />
    </div>
  )
}
