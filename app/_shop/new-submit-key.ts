/** Names one sending of a form or of a press, so that the same sent twice is done once. */
export function newSubmitKey(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) =>
    byte.toString(16).padStart(2, '0'),
  ).join('')
}
