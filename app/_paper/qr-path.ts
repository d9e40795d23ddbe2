import QRCode from 'qrcode'

/** Modules of light margin around the code. Source: ISO/IEC 18004, quiet zone of four modules. */
export const QUIET_MODULES = 4

/** A scan code as one path, one unit a module; level M gives back a text with about 15 % of it spoilt by oil or a fold. */
export function qrPath(text: string): { d: string; moduleCount: number } {
  const { modules } = QRCode.create(text, { errorCorrectionLevel: 'M' })
  const rows: string[] = []
  for (let y = 0; y < modules.size; y++) {
    for (let x = 0; x < modules.size; x++) {
      if (!modules.get(y, x)) continue
      const start = x
      while (x + 1 < modules.size && modules.get(y, x + 1)) x++
      rows.push(`M${start} ${y}h${x - start + 1}v1h${start - x - 1}z`)
    }
  }
  return { d: rows.join(''), moduleCount: modules.size }
}
