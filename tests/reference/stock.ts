import { alloyById } from '@/lib/core/materials/alloys'
import { fillerHeatKJPerKg, fillMassKg, headPressureKPa } from '@/lib/core/materials/fill'
import { defaultFiller, fillerById } from '@/lib/core/materials/fillers'
import { densityByMixtureKgM3, specificHeatByMixtureJPerKgK } from '@/lib/core/materials/mixture'
import { outsideToleranceMm } from '@/lib/core/materials/outside-tolerance'
import { thinnestWallMm, wallToleranceMm } from '@/lib/core/materials/tube-tolerance'
import { gaugeWallMm } from '@/lib/core/materials/wall-gauge'
import { allowedMinutes, hotStrengthRatio } from '@/lib/core/temper/reheat'
import { weldStrength } from '@/lib/core/temper/weld'
import { celsiusFromFahrenheit, ksiFromMpa } from '@/lib/core/units'
import { outsideCheck, printed } from '@/tests/support/outside-check'

const alloy = (id: string) => {
  const found = alloyById(id)
  if (!found) throw new RangeError(id)
  return found
}
const inches = (shape: 'round' | 'square', outsideIn: number, wallIn: number) => ({
  shape,
  outsideMm: outsideIn * 25.4,
  wallMm: wallIn * 25.4,
})

export function temperChecks(): void {
  for (const [temperatureF, minutes] of [
    [300, 6000],
    [325, 3000],
    [350, 480],
    [375, 60],
    [400, 30],
    [425, 15],
    [450, 5],
  ] as const)
    outsideCheck(
      {
        part: 'temper',
        claim: `Aged 6xxx at ${temperatureF} °F: time in all`,
        source: 'Aluminum Association fabrication guidance',
        kind: 'memory',
        expected: minutes,
        tolerance: 1e-6 * minutes,
        unit: 'min',
      },
      () => allowedMinutes(celsiusFromFahrenheit(temperatureF)),
    )
  for (const [temperatureC, heatTreatable, expected] of [
    [90, true, 0.9],
    [100, true, 0.8],
    [90, false, 0.95],
    [100, false, 0.9],
  ] as const)
    outsideCheck(
      {
        part: 'temper',
        claim: `Strength left at ${temperatureC} °C, ${heatTreatable ? '6xxx' : '3xxx and 5xxx'}`,
        source: 'EN 1999-1-1:2007, 3.2.2.3: 1 − k (T − 80)/20',
        kind: 'second hand',
        expected,
        tolerance: 1e-9,
        unit: '',
      },
      () => hotStrengthRatio(temperatureC, { heatTreatable }),
    )
  for (const [id, yieldMPa, tensileMPa, kind] of [
    ['6061-T4', 95, 150, 'second hand'],
    ['6061-T6', 115, 175, 'second hand'],
    ['6063-T5', 60, 100, 'second hand'],
    ['6063-T6', 65, 110, 'second hand'],
    ['6005A-T61', 115, 165, 'second hand'],
    ['6082-T6', 125, 185, 'memory'],
  ] as const) {
    const weld = () => weldStrength(alloy(id))
    const check = {
      part: 'temper',
      source: 'EN 1999-1-1:2007 Table 3.2b, heat-affected zone',
      kind,
      tolerance: 0,
      unit: 'MPa',
    } as const
    outsideCheck({ ...check, claim: `${id} beside a weld: yield`, expected: yieldMPa }, () => {
      const found = weld()
      return found.weldable ? found.yieldMPa : Number.NaN
    })
    outsideCheck({ ...check, claim: `${id} beside a weld: tensile`, expected: tensileMPa }, () => {
      const found = weld()
      return found.weldable ? found.tensileMPa : Number.NaN
    })
  }
  outsideCheck(
    {
      part: 'temper',
      claim: 'Reach of a weld in 3 mm wall',
      source: 'Aluminum Association: one inch or three walls',
      kind: 'second hand',
      expected: 25,
      tolerance: 0.5,
      unit: 'mm',
    },
    () => {
      const found = weldStrength(alloy('6061-T6'), 3)
      return found.weldable ? found.extentMm : Number.NaN
    },
  )
}

export function materialChecks(): void {
  for (const [id, source, tensileKsi, yieldKsi, elongationPct] of [
    ['6061-T6', 'ASTM B241 Table 1', 38, 35, 8],
    ['6063-T6', 'ASTM B241 Table 1', 30, 25, 8],
    ['6082-T6', 'ASTM B241 Table 1', 45, 38, 8],
    ['6005A-T61', 'ASTM B241 Table 1', 38, 35, 8],
    ['6063-T5', 'ASTM B221', 22, 16, 8],
    ['1020-DOM', 'ASTM A513', 70, 60, 5],
    ['1020-N', 'ASTM A513', 50, 35, 25],
    ['1026-DOM', 'ASTM A513', 80, 70, 5],
    ['A500-B-shaped', 'ASTM A500', 58, 46, 23],
    ['A500-C-shaped', 'ASTM A500', 62, 50, 21],
    ['304', 'ASTM A554', 75, 30, 35],
    ['Ti-3Al-2.5V', 'ASTM B338', 90, 70, 15],
  ] as const) {
    const check = { part: 'materials', source, kind: 'second hand' } as const
    // The table holds the standard's MPa column, rounded by itself: within 0.45 ksi.
    outsideCheck(
      { ...check, claim: `${id}: least tensile`, expected: tensileKsi, tolerance: 0.45, unit: 'ksi' },
      () => ksiFromMpa(alloy(id).minimumTensileMPa ?? Number.NaN),
    )
    outsideCheck(
      { ...check, claim: `${id}: least yield`, expected: yieldKsi, tolerance: 0.45, unit: 'ksi' },
      () => ksiFromMpa(alloy(id).minimumYieldMPa ?? Number.NaN),
    )
    outsideCheck(
      { ...check, claim: `${id}: elongation`, expected: elongationPct, tolerance: 0, unit: '%' },
      () => alloy(id).elongationPct,
    )
  }

  const mixture = {
    part: 'materials',
    source: 'Element densities, 100 / ∑(w/ρ)',
    kind: 'by hand',
    unit: 'g/cm³',
  } as const
  for (const [id, text] of [
    ['158', '9.589'],
    ['255', '10.418'],
    ['281', '8.596'],
    ['fields', '7.974'],
    ['117', '9.16'],
    ['136', '9.01'],
    ['203', '9.71'],
  ] as const)
    outsideCheck({ ...mixture, claim: `Filler ${id}: density`, ...printed(text, 2) }, () => {
      const filler = fillerById(id)
      return filler?.kind === 'lowMelt' ? densityByMixtureKgM3(filler.compositionPct) / 1000 : Number.NaN
    })
  outsideCheck(
    {
      part: 'materials',
      claim: 'Filler 158: specific heat',
      source: 'Element specific heats by mass',
      kind: 'by hand',
      ...printed('148.9'),
      unit: 'J/(kg·K)',
    },
    () => specificHeatByMixtureJPerKgK({ Bi: 50, Pb: 26.7, Sn: 13.3, Cd: 10 }),
  )
  for (const number of [117, 136, 158, 174, 203, 255, 281])
    outsideCheck(
      {
        part: 'materials',
        claim: `Filler ${number} melts at its number`,
        source: 'ASTM B774 naming',
        kind: 'memory',
        expected: number,
        tolerance: 1.8,
        unit: '°F',
      },
      () => {
        const filler = fillerById(`${number}`)
        return filler?.kind === 'lowMelt' ? 32 + 1.8 * filler.liquidusC : Number.NaN
      },
    )
  const bore = (Math.PI / 4) * (1.37 * 25.4) ** 2
  const fill = {
    part: 'materials',
    kind: 'by hand',
    source: 'Volume, weight and heat of a filled 1.5 × 0.065 in tube, 36 in',
  } as const
  outsideCheck({ ...fill, claim: 'Filler at 9.40 g/cm³', ...printed('8.17'), unit: 'kg' }, () =>
    fillMassKg({ boreAreaMm2: bore, lengthMm: 914.4, densityKgM3: 9400 }),
  )
  outsideCheck(
    { ...fill, claim: 'Pressure at the plug', ...printed('12.2'), unit: 'psi' },
    () => 1000 * ksiFromMpa(headPressureKPa({ heightMm: 914.4, densityKgM3: 9400 }) / 1000),
  )
  outsideCheck(
    { ...fill, claim: 'Heat of a kilogram from 20 to 90 °C', ...printed('41.1'), unit: 'kJ/kg' },
    () => fillerHeatKJPerKg(defaultFiller, { temperatureC: 90 }),
  )

  const h35 = {
    part: 'materials',
    source: 'ANSI H35.2, mean wall and eccentricity stacked',
    kind: 'second hand',
    unit: 'in',
  } as const
  outsideCheck(
    { ...h35, claim: '1.5 × 0.065 in extruded: thinnest spot', ...printed('0.0470') },
    () => thinnestWallMm(inches('round', 1.5, 0.065), 'h35.2-extruded') / 25.4,
  )
  outsideCheck(
    { ...h35, claim: '2.0 × 0.125 in extruded: thinnest spot', ...printed('0.1044') },
    () => thinnestWallMm(inches('round', 2, 0.125), 'h35.2-extruded') / 25.4,
  )
  for (const [source, claim, standard, tube, text] of [
    ['ASTM A513', 'type 5, 0.065 in: wall under', 'a513-5', inches('round', 1.5, 0.065), '0.0030'],
    ['ASTM A513', 'type 5, 0.120 in: wall under', 'a513-5', inches('round', 2, 0.12), '0.0040'],
    ['ASTM A500', '4 in, 0.200 in: wall under', 'a500', inches('square', 4, 0.2), '0.0200'],
  ] as const)
    outsideCheck(
      {
        part: 'materials',
        source,
        kind: 'second hand',
        claim: `Tube to ${source}, ${claim}`,
        ...printed(text),
        unit: 'in',
      },
      () => wallToleranceMm(tube, standard).minusMm / 25.4,
    )
  outsideCheck(
    {
      part: 'materials',
      source: 'EN 10219-2:2006, tolerances',
      kind: 'second hand',
      claim: 'Wall of 8 mm: under',
      expected: 0.5,
      tolerance: 0,
      unit: 'mm',
    },
    () => wallToleranceMm({ shape: 'square', outsideMm: 100, wallMm: 8 }, 'en10219').minusMm,
  )
  for (const [source, standard, tube, text] of [
    ['ANSI H35.2, outside dimensions', 'h35.2-extruded', inches('round', 0.75, 0.065), '0.0200'],
    ['ANSI H35.2, outside dimensions', 'h35.2-extruded', inches('round', 1.5, 0.065), '0.0250'],
    ['ANSI H35.2, outside dimensions', 'h35.2-extruded', inches('square', 1.5, 0.125), '0.0180'],
    ['ASTM A513', 'a513-5', inches('round', 1.5, 0.065), '0.0050'],
    ['ASTM A500', 'a500', inches('square', 3, 0.12), '0.0250'],
    ['ASTM A500', 'a500', inches('round', 1.9, 0.12), '0.0095'],
    ['ASTM A269', 'a269', inches('round', 1, 0.065), '0.0050'],
    ['ASTM A269', 'a269', inches('round', 2, 0.065), '0.0100'],
  ] as const)
    outsideCheck(
      {
        part: 'materials',
        source,
        kind: 'second hand',
        claim: `${tube.shape === 'round' ? 'Round' : 'Square'} ${Number((tube.outsideMm / 25.4).toFixed(2))} in: outside over`,
        ...printed(text),
        unit: 'in',
      },
      () => outsideToleranceMm(tube, standard).plusMm / 25.4,
    )
  for (const [gauge, text] of [
    [18, '1.2446'],
    [16, '1.6510'],
    [14, '2.1082'],
    [11, '3.0480'],
    [7, '4.5720'],
  ] as const)
    outsideCheck(
      {
        part: 'materials',
        source: 'Birmingham Wire Gauge, two published tables',
        kind: 'published',
        claim: `${gauge} gauge`,
        ...printed(text),
        unit: 'mm',
      },
      () => gaugeWallMm(gauge) ?? Number.NaN,
    )
}
