import fc from 'fast-check'

/** What breaks programs: what ends a text, a query, a path or a number too early, and what is larger than anybody types. */
const known = [
  ...[
    '',
    ' ',
    '\u0000',
    '\u0007',
    '\ufeff',
    '\u202e',
    '\ud800',
    'ı',
    '½',
    '１２',
    '1/0',
    '1//2',
    '-0',
    '.',
    ',',
  ],
  ...[
    'NaN',
    'Infinity',
    '-Infinity',
    '1e309',
    '1e-400',
    '9'.repeat(400),
    '0x10',
    '1_000',
    '1 000',
    '--1',
    '+-1',
  ],
  ...['1-1/2"', '3\'-4 1/2"', '38.1 mm', '11 ga', "30d15'", '$1,234.56', '12%', '1h 30m', '20 ton'],
  ...["' or 1=1 --", '%_\\', '../../etc/passwd', 'C:\\x', '<script>alert(1)</script>', '{{7*7}}', '${7*7}'],
  ...['=1+1', '@SUM(A1)', '-1+1', '\t=1', '\r=1', '__proto__', 'constructor', 'toString', 'then'],
  ...['2026-02-30', '2026-03-31', '9999999999', '2147483648', 'true', 'null', '[]', 'a'.repeat(20_000)],
]

export const hostileText: fc.Arbitrary<string> = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom(...known) },
  { weight: 2, arbitrary: fc.string({ unit: 'binary', maxLength: 60 }) },
  { weight: 2, arbitrary: fc.stringMatching(/^[-+]?[\d.,/ ]{0,9} ?(mm|in|"|'|ft|ga|°|d|kN|lb|%|h|m|\$)?$/) },
)

const leaf: fc.Arbitrary<unknown> = fc.oneof(
  hostileText,
  fc.double(),
  fc.integer(),
  fc.constantFrom<unknown>(null, undefined, true, false, [], {}),
)

/** Anything that can come over the line. */
export const hostileJson: fc.Arbitrary<unknown> = fc.letrec<{ value: unknown }>((tie) => ({
  value: fc.oneof(
    { maxDepth: 4, depthSize: 'small' },
    leaf,
    fc.array(tie('value'), { maxLength: 4 }),
    fc.dictionary(hostileText, tie('value'), { maxKeys: 4 }),
  ),
})).value

/** An object with just these names, each with something hostile: deeper into a form than one with none of its names. */
export function hostileForm(names: readonly string[]): fc.Arbitrary<Record<string, unknown>> {
  const value = fc.oneof(
    { weight: 6, arbitrary: hostileText },
    { weight: 2, arbitrary: leaf },
    { weight: 1, arbitrary: hostileJson },
  )
  return fc
    .array(value, { minLength: names.length, maxLength: names.length })
    .map((values) => Object.fromEntries(names.map((name, index) => [name, values[index]])))
}

/** How many inputs a whole file tries: a few seconds' worth in npm test, BENDWRIGHT_FUZZ_RUNS in npm run fuzz. */
export const fuzzRuns = (inTests: number): number => Number(process.env.BENDWRIGHT_FUZZ_RUNS ?? inTests)

/** The same inputs every time, unless another seed is asked for. */
export const fuzzSeed = Number(process.env.BENDWRIGHT_FUZZ_SEED ?? 20_261_125)
