/** A material's name as it stands in an address; null for what no browser would write. */
export function nameInAddress(text: string): string | null {
  try {
    return decodeURIComponent(text)
  } catch {
    return null
  }
}
