import type { Linework } from '@/app/_paper/linework'
import type { PaperIssue } from '@/app/_paper/paper'
import type { TravellerData } from '@/app/_paper/traveller-data'

export const ISSUE: PaperIssue = {
  paper: 'letter',
  revision: 2,
  printedOn: '9 March 2026 14:05',
  printedAtIso: '2026-03-09T14:05:00Z',
  printedBy: 'M. Osei',
}

/** A davit arm's elevation: 600 mm out, 32 degrees up at a radius of 250, then 400 mm. */
export const ELEVATION: Linework = {
  title: 'Elevation',
  widthMm: 1100,
  heightMm: 420,
  strokes: [
    {
      kind: 'edge',
      points: [
        [60, 300],
        [560, 300],
        [627, 291],
        [693, 262],
        [1010, 64],
      ],
    },
    {
      kind: 'edge',
      points: [
        [60, 338],
        [565, 338],
        [637, 328],
        [713, 295],
        [1030, 97],
      ],
    },
    {
      kind: 'edge',
      points: [
        [60, 300],
        [60, 338],
      ],
    },
    {
      kind: 'edge',
      points: [
        [1010, 64],
        [1030, 97],
      ],
    },
    {
      kind: 'centre',
      points: [
        [40, 319],
        [560, 319],
        [632, 309],
        [703, 278],
        [1040, 68],
      ],
    },
    {
      kind: 'dimension',
      points: [
        [60, 350],
        [60, 396],
      ],
    },
    {
      kind: 'dimension',
      points: [
        [632, 340],
        [632, 396],
      ],
    },
    {
      kind: 'dimension',
      points: [
        [60, 388],
        [632, 388],
      ],
    },
  ],
  labels: [
    { xMm: 346, yMm: 380, text: '572.4', anchor: 'middle' },
    { xMm: 790, yMm: 330, text: '32.0° ±1.0°', anchor: 'start' },
    { xMm: 500, yMm: 270, text: 'CLR 250', anchor: 'middle' },
  ],
}

export const PLAN: Linework = {
  ...ELEVATION,
  title: 'Plan',
  heightMm: 160,
  strokes: [
    {
      kind: 'edge',
      points: [
        [60, 60],
        [1020, 60],
        [1020, 98],
        [60, 98],
        [60, 60],
      ],
    },
    {
      kind: 'centre',
      points: [
        [40, 79],
        [1040, 79],
      ],
    },
  ],
  labels: [{ xMm: 540, yMm: 140, text: '960.0', anchor: 'middle' }],
}

export const TRAVELLER: TravellerData = {
  ...ISSUE,
  shopName: 'Tidewrack Fabrication',
  lengthUnit: 'mm',
  job: {
    jobNumber: 'J-0412',
    customerName: 'Saltmarsh Rowing Club',
    orderNumber: 'SRC 2026-31',
    partNumber: 'TW-1170',
    partRevision: 'C',
    partTitle: 'Rigger frame, main stay',
    drawingNumber: 'SRC-RF-02 sheet 1',
    pieceCount: 3,
    dueOn: '27 March 2026',
    benchUrl: 'http://bench.tidewrack.test/bench/jobs/J-0412',
  },
  part: {
    sectionText: '38.1 × 38.1 × 3.18 mm square',
    materialText: '6061-T6 extrusion',
    endTemperText: 'T6, unaged again',
    cutLengthMm: 1310.4,
    developedLengthMm: 1204.8,
    massKg: 1.58,
  },
  drawings: [ELEVATION, PLAN],
  stockLots: [
    {
      lotNumber: 'L-0231',
      heatNumber: 'H 77A-4410',
      certificateText: 'EN 10204 3.1, on file',
      placeText: 'Rack 3, bay B',
    },
  ],
  setUp: [
    { label: 'press', quantity: { text: 'P-1, 220 kN H-frame' } },
    { label: 'span', quantity: { lengthMm: 610 } },
    { label: 'die', quantity: { text: 'D-14' } },
    { label: 'strap', quantity: { text: 'S-3, 3 × 36 mm' } },
  ],
  datumText: 'The datum end is the end stamped 0; a tape is laid once and not moved.',
  marks: [
    { atMm: 0, kind: 'datum', label: 'datum end' },
    { atMm: 52.8, kind: 'trim', label: 'trim line, datum end' },
    { atMm: 52.8, kind: 'mitre', label: 'mitre 22.5°, long face' },
    { atMm: 500.1, kind: 'tangent', label: 'bend 1 start' },
    { atMm: 572.4, kind: 'bendCentre', label: 'bend 1 centre' },
    { atMm: 644.7, kind: 'tangent', label: 'bend 1 end' },
    { atMm: 902.3, kind: 'bendCentre', label: 'bend 2 centre' },
    { atMm: 1257.6, kind: 'trim', label: 'trim line, far end' },
  ],
  sectionMeasures: ['width inner face', 'width middle', 'width outer face'],
  bends: [
    {
      bendNumber: 1,
      rotationDeg: 0,
      loadedAngleDeg: 41.3,
      atPress: { expectedDeg: 35.1, lowDeg: 34.2, highDeg: 36 },
      afterMeltOut: { expectedDeg: 32, lowDeg: 31.1, highDeg: 32.9 },
      wantedAngleDeg: 32,
      angleToleranceDeg: 1,
      finalRadiusMm: 250,
      ramTravelMm: 96.4,
      pressForceKn: 38.6,
      centreMarkMm: 572.4,
    },
    {
      bendNumber: 2,
      rotationDeg: 90,
      loadedAngleDeg: 20.8,
      atPress: { expectedDeg: 16.9, lowDeg: 16.2, highDeg: 17.6 },
      afterMeltOut: { expectedDeg: 15, lowDeg: 14.3, highDeg: 15.7 },
      wantedAngleDeg: 15,
      angleToleranceDeg: 1,
      finalRadiusMm: 250,
      ramTravelMm: 48.2,
      pressForceKn: 38.1,
      centreMarkMm: 902.3,
    },
  ],
  operations: [
    {
      sequence: 10,
      title: 'Check papers and stock',
      instruction:
        'Drawing revision, heat number on the tube against the certificate. Copy the heat number to every blank.',
      setPoints: [],
      hazards: [],
      plannedMin: 10,
      isHoldPoint: true,
    },
    {
      sequence: 20,
      title: 'Saw blanks',
      instruction: 'Cut three blanks and one trial piece. Stamp 0 on the datum end.',
      setPoints: [{ label: 'length', quantity: { lengthMm: 1310.4 } }],
      hazards: ['cutEdges'],
      plannedMin: 24,
    },
    {
      sequence: 30,
      title: 'Oil, plug one end, fill',
      instruction:
        'Thin coat of light mineral oil in the bore. Plug the datum end only. Pour down the wall, chill from the plug up.',
      setPoints: [
        { label: 'filler', quantity: { text: 'alloy 158' } },
        { label: 'mass each', quantity: { massKg: 12.43 } },
        { label: 'pour at', quantity: { temperatureC: 85 } },
        { label: 'tube preheat', quantity: { temperatureC: 80 } },
      ],
      hazards: ['moltenAlloy', 'sealedTube', 'leadCadmium'],
      plannedMin: 75,
    },
    {
      sequence: 40,
      title: 'Bend',
      instruction:
        'Strap on the outside of the bend. Mark under the ram axis. Slow and even to the loaded angle, then back off and read.',
      setPoints: [
        { label: 'span', quantity: { lengthMm: 610 } },
        { label: 'die', quantity: { text: 'D-14' } },
        { label: 'die surface radius', quantity: { lengthMm: 176.5 } },
        { label: 'strap', quantity: { text: 'S-3' } },
      ],
      hazards: ['pressEjection', 'brittleFill'],
      bendNumbers: [1, 2],
      plannedMin: 60,
      isHoldPoint: true,
    },
    {
      sequence: 50,
      title: 'Melt out and weigh',
      instruction:
        'Hot water, open end down. Pull a dry rag through until it comes out clean. Write down the mass that came back.',
      setPoints: [
        { label: 'bath', quantity: { temperatureC: 92 } },
        { label: 'mass back, at least', quantity: { massKg: 12.3 } },
      ],
      hazards: ['moltenAlloy', 'sealedTube', 'residue'],
      plannedMin: 40,
    },
    {
      sequence: 60,
      title: 'Trim, mitre, measure',
      instruction: 'Trim to the lines, mitre by the wrap, measure every bend on the empty cold tube.',
      setPoints: [{ label: 'mitre from square', quantity: { angleDeg: 22.5 } }],
      hazards: ['cutEdges'],
      plannedMin: 45,
      isHoldPoint: true,
    },
  ],
  trialSteps: [
    'Bend the trial piece to the loaded angle of bend 1, same filler, strap, span and speed.',
    'Back the ram off and read the angle at once: it is to lie in the range at the press.',
    'Melt out, let it cool, read again. The filling creeps: a bend left filled overnight reads differently at the press.',
    'Next loaded angle = loaded angle + (wanted angle - angle measured after melt-out). Log it at the bench: the new target comes from there.',
    'Look at the outside with dye, the inside for a fold, the faces for sag. Nothing goes on until two trials agree within half the tolerance.',
  ],
  pieces: [1, 2, 3].map((number) => ({
    pieceNumber: `J-0412/${number}`,
    stockLotNumber: 'L-0231',
    heatNumber: 'H 77A-4410',
    benchUrl: `http://bench.tidewrack.test/bench/pieces/J-0412/${number}`,
  })),
}
