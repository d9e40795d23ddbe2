export type PaperSize = 'a4' | 'letter'

/**
 * Sheet sizes, upright.
 * Source: ISO 216:2007 (A4 is 210 mm by 297 mm); ANSI/ASME Y14.1 (size A, Letter, is 8.5 in by 11 in).
 */
export const PAPER_SIZES: Readonly<
  Record<PaperSize, { readonly widthMm: number; readonly heightMm: number }>
> = {
  a4: { widthMm: 210, heightMm: 297 },
  letter: { widthMm: 8.5 * 25.4, heightMm: 11 * 25.4 },
}

/** The lengths of the two bars printed on every sheet, to be checked with a rule before anything is cut. */
export const SCALE_BAR_MM = 100
export const SCALE_BAR_IN = 4
