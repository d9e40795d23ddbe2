/** 320 kB, 1.4 MB, 2.1 GB: decimal multiples, as file lists show them. */
export function byteText(byteCount) {
  if (byteCount < 1000) return `${byteCount} B`
  if (byteCount < 1e6) return `${Math.round(byteCount / 1000)} kB`
  return byteCount < 1e9 ? `${(byteCount / 1e6).toFixed(1)} MB` : `${(byteCount / 1e9).toFixed(1)} GB`
}
