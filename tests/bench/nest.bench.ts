import { nestPieces } from '@/lib/core/stock/nest'

/** A shop's ordinary day: three part lengths, two offcuts on the rack, two lengths to buy. */
const day = {
  pieces: [
    { key: 'rail', lengthMm: 1480, pieceCount: 6 },
    { key: 'arm', lengthMm: 930, pieceCount: 4 },
    { key: 'stay', lengthMm: 415, pieceCount: 10 },
  ],
  rack: [
    { key: 'offcut 1', lengthMm: 1900, kind: 'offcut', costCents: 0 },
    { key: 'offcut 2', lengthMm: 1020, kind: 'offcut', costCents: 0 },
  ],
  buyable: [
    { key: '20 ft', lengthMm: 6096, priceCents: 8900 },
    { key: '12 ft', lengthMm: 3658, priceCents: 5800 },
  ],
  kerfMm: 2.5,
  endTrimMm: 5,
  trimFarEnd: false,
  keepOffcutFromMm: 600,
  offcutValueCentsPerM: 500,
} as const

let turn = 0
/** A hair longer at each turn: no plan is answered from the one before. */
const anotherDay = () => ({
  ...day,
  pieces: day.pieces.map((piece) => ({ ...piece, lengthMm: piece.lengthMm + (turn++ % 10_000) * 1e-6 })),
})

export const cases = [
  { title: 'nest 20 pieces in bars and offcuts, exactly', run: () => nestPieces(anotherDay()) },
]
