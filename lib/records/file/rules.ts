/** The largest drawing the shop keeps. */
export const mostFileBytes = 25 * 1024 * 1024

export const fileKinds = {
  pdf: { label: 'PDF', mediaType: 'application/pdf', shown: true },
  png: { label: 'PNG', mediaType: 'image/png', shown: true },
  jpeg: { label: 'JPEG', mediaType: 'image/jpeg', shown: true },
  dxf: { label: 'DXF', mediaType: 'image/vnd.dxf', shown: false },
  step: { label: 'STEP', mediaType: 'model/step', shown: false },
} as const

export type FileKind = keyof typeof fileKinds

export const acceptedEndings = '.pdf,.png,.jpg,.jpeg,.dxf,.step,.stp'

const ascii = (bytes: Uint8Array, start: number, end: number): string =>
  String.fromCharCode(...bytes.subarray(start, Math.min(end, bytes.length)))

const beginsWith = (bytes: Uint8Array, signature: readonly number[]): boolean =>
  bytes.length >= signature.length && signature.every((byte, index) => bytes[index] === byte)

/**
 * What a file is by its first bytes, whatever its name says; null for anything the shop doesn't keep.
 * Source: ISO 32000-1 7.5.2 (PDF header), ISO/IEC 15948 5.2 (PNG signature), ISO/IEC 10918-1 B.1.1.3 (JPEG markers),
 * ISO 10303-21 5.2 (STEP exchange structure); DXF by its first group codes and its binary sentinel.
 */
export function sniffedKind(bytes: Uint8Array): FileKind | null {
  if (beginsWith(bytes, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return 'png'
  if (beginsWith(bytes, [0xff, 0xd8, 0xff])) return 'jpeg'
  const head = ascii(bytes, 0, 1024).replace(/^\u00ef\u00bb\u00bf/, '')
  if (head.startsWith('%PDF-')) return 'pdf'
  if (head.trimStart().startsWith('ISO-10303-21;')) return 'step'
  if (head.startsWith('AutoCAD Binary DXF\r\n\u001a\u0000')) return 'dxf'
  if (/^\s*(?:999\r?\n[^\n]*\r?\n\s*)*0\r?\n\s*SECTION\s*\r?\n/.test(head)) return 'dxf'
  return null
}

export function kindOfMediaType(mediaType: string): FileKind | null {
  const found = Object.entries(fileKinds).find(([, kind]) => kind.mediaType === mediaType)
  return found ? (found[0] as FileKind) : null
}

/** A name to show and to give back: never a path, nothing that can't be printed, at most 120 characters. */
export function cleanFileName(name: string): string {
  const last = name.normalize('NFC').split(/[/\\]/).at(-1) ?? ''
  const printable = last.replace(/[\p{Cc}\p{Cf}\p{Cs}]/gu, '').trim()
  const characters = [...printable]
  if (characters.length === 0 || /^\.+$/.test(printable)) return 'drawing'
  if (characters.length <= 120) return printable
  const ending = /\.[A-Za-z0-9]{1,5}$/.exec(printable)?.[0] ?? ''
  return characters.slice(0, 120 - ending.length).join('') + ending
}

/** A content-disposition that any name fits: plain ASCII for old readers, the real name in UTF-8. Source: RFC 6266, RFC 8187. */
export function dispositionHeader(name: string, shown: boolean): string {
  const plain = cleanFileName(name).replace(/[^\x20-\x7e]|["\\%;]/g, '_')
  const exact = encodeURIComponent(cleanFileName(name)).replace(
    /['()*!]/g,
    (mark) => `%${mark.charCodeAt(0).toString(16).toUpperCase()}`,
  )
  return `${shown ? 'inline' : 'attachment'}; filename="${plain}"; filename*=UTF-8''${exact}`
}

/** 1.4 MB, 320 kB: decimal multiples, as file lists show them. */
export function byteText(byteCount: number): string {
  if (byteCount < 1000) return `${byteCount} B`
  return byteCount < 1_000_000
    ? `${Math.round(byteCount / 1000)} kB`
    : `${(byteCount / 1_000_000).toFixed(1)} MB`
}
