import type { BendInPress, BendSetting } from '@/lib/core/mechanics/bend-setting'
import type { Trace, TraceInput, TraceStep } from '@/lib/core/mechanics/trace'

const plasticity = 'beam plasticity, plane sections (Beer & Johnston, Mechanics of Materials, ch. 4)'
const unloading = 'elastic unloading, 1/R - 1/Rf = M / (E I) (Beer & Johnston, Mechanics of Materials, ch. 4)'

/** The solved bend's own values as steps: what was sought together is recorded once it is found. */
export function recordBend(trace: Trace, setting: BendSetting, made: BendInPress): void {
  const { bent, wanted, springbackFactor: c } = setting
  const { balance, phiRad, arm } = made
  const degrees = (angleRad: number) => (angleRad * 180) / Math.PI
  const mechanics = (step: Omit<TraceStep, 'trust'>): TraceStep => ({ ...step, trust: 'mechanics' })
  const radius: TraceInput = ['RL', made.loadedRadiusMm, 'mm', 'loadedRadiusMm']
  const stiffness: TraceInput = ['E I', bent.stiffness, 'N·mm²', '/section.inertiaMm4']
  const tubeMoment: TraceInput = ['M_tube', balance.tubeMomentNmm, 'N·mm', 'tubeMomentNmm']
  const fillerMoment: TraceInput = ['M_filler', balance.fillerMomentNmm, 'N·mm', 'fillerMomentNmm']
  const strapMoment: TraceInput = ['M_strap', balance.strapMomentNmm, 'N·mm', 'strapMomentNmm']
  const tension: TraceInput = ['T', balance.strapTensionN, 'N', 'strapTensionN']

  trace.step(
    'recoveryPerMm',
    mechanics({
      formula: 'dk = c M_tube / (E I)',
      inputs: [['c', c], tubeMoment, stiffness],
      value: made.recovery,
      unit: '1/mm',
      source: unloading,
    }),
  )
  trace.step(
    'pressRecoveryPerMm',
    mechanics({
      formula: 'dk1 = c x,  M_tube - E I x + M_filler - 2 M_f(x/2) = 0',
      inputs: [['c', c], tubeMoment, fillerMoment, stiffness],
      value: made.pressRecovery,
      unit: '1/mm',
      source: `${unloading}; Masing's rule for the filler`,
    }),
  )
  trace.step(
    'loadedRadiusMm',
    mechanics({
      formula:
        '1 / RL - dk = 1 / Rf: the radius on the die that springs back to the final one; on a given die RL = die radius + h/2',
      inputs: [
        ['Rf', made.finalRadiusMm, 'mm'],
        ['dk', made.recovery, '1/mm', 'recoveryPerMm'],
      ],
      value: made.loadedRadiusMm,
      unit: 'mm',
      source: unloading,
    }),
  )
  trace.step(
    'finalRadiusMm',
    mechanics({
      formula: 'Rf = 1 / (1 / RL - dk)',
      inputs: [radius, ['dk', made.recovery, '1/mm', 'recoveryPerMm']],
      value: made.finalRadiusMm,
      unit: 'mm',
      source: unloading,
    }),
  )
  trace.step('dieSurfaceRadiusMm', {
    formula: 'die radius = RL - h/2',
    inputs: [radius, ['h', bent.tube.heightMm, 'mm']],
    value: made.loadedRadiusMm - bent.tube.heightMm / 2,
    unit: 'mm',
    source: 'geometry',
    trust: 'mechanics',
  })
  trace.step(
    'wrappedAngleDeg',
    mechanics({
      formula: '2 phi = (wanted angle - 2 arm kept) Rw / RL',
      inputs: [
        ['wanted angle', degrees(wanted.angleRad), '°'],
        ['arm kept', degrees(arm.keptRad), '°', 'armKeptDeg'],
        ['Rw', wanted.radiusMm, 'mm'],
        radius,
      ],
      value: degrees(2 * phiRad),
      unit: '°',
      source: 'the arc keeps its length',
    }),
  )
  trace.step(
    'strapTensionN',
    mechanics({
      formula: 'T = min(mu_s N, As Fys),  N = M_ext / (s + g mu a)',
      inputs: bent.strap
        ? [
            ['mu_s', bent.strap.frictionCoeff],
            ['M_ext', balance.externalMomentNmm, 'N·mm', 'externalMomentNmm'],
            ['s + g mu a', made.lever.leverMm, 'mm', 'leverMm'],
            ['As', bent.strap.thicknessMm * bent.strap.widthMm, 'mm²'],
            ['Fys', bent.strap.yieldMPa, 'MPa'],
          ]
        : [['no strap', 0, 'N']],
      value: balance.strapTensionN,
      unit: 'N',
      source: 'friction between strap and tube',
    }),
  )
  trace.step(
    'neutralAxisShiftMm',
    mechanics({
      formula: 'y_n: integral of s(e) dA = -T,  e(y) = (y - y_n) / (RL + y_n)',
      inputs: [tension, radius],
      value: balance.neutralMm,
      unit: 'mm',
      source: plasticity,
    }),
  )
  trace.step(
    'tubeMomentNmm',
    mechanics({
      formula: 'M_tube = integral of s(e) y dA,  e(y) = (y - y_n) / (RL + y_n)',
      inputs: [
        radius,
        ['y_n', balance.neutralMm, 'mm', 'neutralAxisShiftMm'],
        ['n', bent.curve.exponent, '', '/material.exponent'],
        ['Fty', bent.material.yieldMPa, 'MPa'],
        ['E', bent.material.elasticModulusMPa, 'MPa'],
      ],
      value: balance.tubeMomentNmm,
      unit: 'N·mm',
      source: plasticity,
    }),
  )
  trace.step(
    'fillerMomentNmm',
    mechanics({
      formula:
        'M_filler: elastic-perfectly-plastic bore section at curvature 1 / RL; none for hollow and sand',
      inputs:
        bent.support.kind === 'lowMelt'
          ? [
              radius,
              ['Ef', bent.support.modulusMPa, 'MPa'],
              ['sf', bent.support.yieldMPa, 'MPa'],
              ['If', bent.section.boreInertiaMm4, 'mm⁴', '/section.boreInertiaMm4'],
            ]
          : [['support', bent.support.kind]],
      value: balance.fillerMomentNmm,
      unit: 'N·mm',
      source: plasticity,
    }),
  )
  trace.step(
    'strapMomentNmm',
    mechanics({
      formula:
        'M_strap: elastic-perfectly-plastic strip at radius RL + h/2 + ts/2 with T in it, at most ws ts^2 Fys / 4 (1 - (T / (As Fys))^2)',
      inputs: bent.strap
        ? [
            radius,
            tension,
            ['ts', bent.strap.thicknessMm, 'mm'],
            ['ws', bent.strap.widthMm, 'mm'],
            ['Fys', bent.strap.yieldMPa, 'MPa'],
          ]
        : [['no strap', 0, 'N·mm']],
      value: balance.strapMomentNmm,
      unit: 'N·mm',
      source: plasticity,
    }),
  )
  trace.step(
    'externalMomentNmm',
    mechanics({
      formula: 'M_ext = M_tube + M_filler + M_strap + T (h/2 + ts/2)',
      inputs: [
        tubeMoment,
        fillerMoment,
        strapMoment,
        tension,
        ['h', bent.tube.heightMm, 'mm'],
        ['ts', bent.strap?.thicknessMm ?? 0, 'mm'],
      ],
      value: balance.externalMomentNmm,
      unit: 'N·mm',
      source: 'statics',
    }),
  )
}
