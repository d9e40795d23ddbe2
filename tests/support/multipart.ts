/** One part of a multipart body, as it goes over the line: nothing is escaped but what ends a line or a name. */
export type Part = {
  readonly name: string
  readonly value: string | Uint8Array
  readonly fileName?: string
  readonly mediaType?: string
}

const boundary = '----tries7MA4YWxkTrZu0gW'
export const multipartType = `multipart/form-data; boundary=${boundary}`

/** Source: RFC 7578, and how browsers escape names (HTML Standard, "Multipart form data"). */
export function multipartBody(parts: readonly Part[], end = `--${boundary}--\r\n`): Buffer {
  const escaped = (text: string) =>
    text.replaceAll('\n', '%0A').replaceAll('\r', '%0D').replaceAll('"', '%22')
  const chunks = parts.flatMap(({ name, value, fileName, mediaType }) => [
    Buffer.from(`--${boundary}\r\nContent-Disposition: form-data; name="${escaped(name)}"`),
    Buffer.from(fileName === undefined ? '' : `; filename="${escaped(fileName)}"`),
    Buffer.from(mediaType === undefined ? '' : `\r\nContent-Type: ${mediaType}`),
    Buffer.from('\r\n\r\n'),
    typeof value === 'string' ? Buffer.from(value) : value,
    Buffer.from('\r\n'),
  ])
  return Buffer.concat([...chunks, Buffer.from(end)])
}
