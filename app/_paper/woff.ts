import { inflateSync } from 'node:zlib'

const HEADER_BYTES = 44
const ENTRY_BYTES = 20
/** Room after the last table: the font reader looks for an outline's box past the end where a face ends in an empty letter. */
const PAD_BYTES = 16

/**
 * A compressed web font as the plain one inside it. The renderer reads .woff too, but inflates the outlines again for
 * every letter it embeds, which took a fifth of a document's time.
 * Source: W3C WOFF File Format 1.0, sections 3 to 5; OpenType 1.9, table directory.
 */
export function plainFont(woff: Buffer): Buffer {
  if (woff.toString('latin1', 0, 4) !== 'wOFF')
    throw new Error('The paper’s font file is not a WOFF 1.0 font.')
  const tableCount = woff.readUInt16BE(12)
  const tables = Array.from({ length: tableCount }, (_, index) => {
    const entry = HEADER_BYTES + index * ENTRY_BYTES
    const offset = woff.readUInt32BE(entry + 4)
    const packed = woff.subarray(offset, offset + woff.readUInt32BE(entry + 8))
    const plainBytes = woff.readUInt32BE(entry + 12)
    return {
      tag: woff.subarray(entry, entry + 4),
      checksum: woff.readUInt32BE(entry + 16),
      bytes: packed.length < plainBytes ? inflateSync(packed) : packed,
    }
  })
  const powerOfTwo = 2 ** Math.floor(Math.log2(tableCount))
  const head = Buffer.alloc(12 + 16 * tableCount)
  woff.copy(head, 0, 4, 8)
  head.writeUInt16BE(tableCount, 4)
  head.writeUInt16BE(16 * powerOfTwo, 6)
  head.writeUInt16BE(Math.log2(powerOfTwo), 8)
  head.writeUInt16BE(16 * (tableCount - powerOfTwo), 10)
  const parts: Uint8Array[] = [head]
  let offset = head.length
  tables.forEach(({ tag, checksum, bytes }, index) => {
    const entry = 12 + 16 * index
    tag.copy(head, entry)
    head.writeUInt32BE(checksum, entry + 4)
    head.writeUInt32BE(offset, entry + 8)
    head.writeUInt32BE(bytes.length, entry + 12)
    const filler = Buffer.alloc((4 - (bytes.length % 4)) % 4)
    parts.push(bytes, filler)
    offset += bytes.length + filler.length
  })
  return Buffer.concat([...parts, Buffer.alloc(PAD_BYTES)])
}
