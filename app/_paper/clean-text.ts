/** What the paper's fonts have no letter for but plain letters can say. */
const SAID_OTHERWISE: Readonly<Record<string, string>> = {
  '→': '->',
  '←': '<-',
  '≤': '<=',
  '≥': '>=',
  '≈': '~',
  '≠': '<>',
  '√': 'sqrt',
  '⌀': 'Ø',
  '∅': 'Ø',
  '∫': 'integral of ',
  '∑': 'sum of ',
  '∞': 'infinity',
  '⁰': '^0',
  '⁴': '^4',
  '⁵': '^5',
  '⁶': '^6',
  '⁻': '^-',
  '₀': '0',
  '₁': '1',
  '₂': '2',
  '✓': 'yes',
  '✗': 'no',
  '\u202f': '\u00a0',
  '\u2007': '\u00a0',
  '\u2010': '-',
  '\u2011': '-',
  '\u2012': '–',
}

/** Latin, Greek and Cyrillic letters and the signs that IBM Plex Sans holds in the subsets the paper loads. */
const ON_PAPER =
  /^[\u0020-\u007e\u00a0-\u00ac\u00ae-\u017f\u0192\u0218-\u021b\u0384-\u038a\u038c\u038e-\u03a1\u03a3-\u03ce\u0400-\u045f\u2013\u2014\u2018-\u201a\u201c-\u201e\u2020\u2022\u2026\u2032\u2033\u2039\u203a\u2044\u20ac\u2116\u2122\u2191\u2193\u2212\ufffd]$/u

/**
 * Text as paper can show it: control and direction characters go, line breaks become spaces, and a letter the fonts
 * have not (emoji, right-to-left and East Asian scripts) becomes one replacement mark for each run, never a wrong letter.
 */
export function cleanText(words: string, mostLetters = 2000): string {
  const plain = words
    .normalize('NFC')
    .replace(/[\p{Cc}\p{Zl}\p{Zp}]+/gu, ' ')
    .replace(/[\p{Cf}\p{Cs}\p{Co}\p{Cn}]/gu, '')
  const shown = Array.from(plain, (letter) =>
    ON_PAPER.test(letter) ? letter : (SAID_OTHERWISE[letter] ?? '\ufffd'),
  )
  const text = shown
    .join('')
    .replace(/\ufffd(?:[\ufffd ]*\ufffd)?/g, '\ufffd')
    .replace(/ {2,}/g, ' ')
    .trim()
  return text.length > mostLetters ? `${text.slice(0, mostLetters - 1)}…` : text
}

/** Words longer than any real one are cut so that they stay inside their column; all others are left whole. */
export function pieces(word: string): string[] {
  if (word.length <= 18) return [word]
  return word.match(/.{1,6}/gsu) ?? [word]
}
