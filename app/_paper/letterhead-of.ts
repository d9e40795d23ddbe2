import type { Letterhead, Logo } from './letter-head'

/** The lines of a text as they were typed, blank ones left out. */
export function linesOf(text: string): string[] {
  return text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
}

/** The shop as the head of a paper that goes out names it. */
export function letterheadOf(
  shop: { name: string; addressText: string; contactText: string },
  logo: Logo | null,
): Letterhead {
  return {
    name: shop.name,
    addressLines: [...linesOf(shop.addressText), ...linesOf(shop.contactText)],
    ...(logo && { logo }),
  }
}
