/** The number at the end of an address, as a row's id; null for anything that can't be one. */
export function rowId(text: string): number | null {
  return /^[1-9]\d{0,9}$/.test(text) && Number(text) < 2 ** 31 ? Number(text) : null
}
