/**
 * A stream of pseudo-random numbers in (0, 1) that is the same for the same seed, on every machine.
 *   xoshiro128** (32-bit state words), seeded by splitmix32; u = (x + 0.5) / 2^32, so 0 and 1 never occur.
 * Source: D. Blackman, S. Vigna, "Scrambled linear pseudorandom number generators", ACM TOMS 47 (2021) 36,
 * generator xoshiro128** 1.1. Valid: simulation; not for secrets.
 */
export function uniformStream(seed: number): () => number {
  if (!Number.isInteger(seed)) throw new RangeError(`The seed of a sample is a whole number, not ${seed}.`)
  const nextSeedWord = splitMix32(seed)
  const nextWord = xoshiro([nextSeedWord(), nextSeedWord(), nextSeedWord(), nextSeedWord()])
  return () => (nextWord() + 0.5) / 4294967296
}

/**
 * The raw 32-bit words of xoshiro128**, from four given state words; what `uniformStream` scales.
 * Source: as `uniformStream`. Valid: not all four words zero.
 */
export function xoshiroWords(state: readonly [number, number, number, number], count: number): number[] {
  const nextWord = xoshiro(state)
  return Array.from({ length: count }, nextWord)
}

/**
 * A seed for a named part of a simulation, so that two ways that share an operation share its luck.
 *   FNV-1a over the name's UTF-16 units, mixed with the run's seed.
 * Source: Fowler, Noll, Vo, hash FNV-1a 32 bit (offset 2166136261, prime 16777619).
 */
export function seedFor(seed: number, name: string): number {
  let hash = 2166136261 ^ seed
  for (let i = 0; i < name.length; i += 1) {
    hash = Math.imul(hash ^ name.charCodeAt(i), 16777619)
  }
  return hash >>> 0
}

function xoshiro(state: readonly [number, number, number, number]): () => number {
  let [a, b, c, d] = state
  if ((a | b | c | d) === 0)
    throw new RangeError('A generator whose four state words are all zero stays at zero.')
  return () => {
    const fives = Math.imul(b, 5)
    const scrambled = Math.imul((fives << 7) | (fives >>> 25), 9)
    const shifted = b << 9
    c ^= a
    d ^= b
    b ^= c
    a ^= d
    c ^= shifted
    d = (d << 11) | (d >>> 21)
    return scrambled >>> 0
  }
}

function splitMix32(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x9e3779b9) | 0
    let mixed = state ^ (state >>> 16)
    mixed = Math.imul(mixed, 0x21f0aaad)
    mixed ^= mixed >>> 15
    mixed = Math.imul(mixed, 0x735a2d97)
    return (mixed ^ (mixed >>> 15)) >>> 0
  }
}
