/**
 * The text after one press of plus or minus. An empty value starts at `startAt` on the first press;
 * text that is no plain number is left as it was typed.
 */
export function stepText(
  typed: string,
  { byStep, startAt, decimals }: { byStep: number; startAt: number; decimals: number },
): string {
  const plain = typed.trim().replace(',', '.')
  if (plain === '') return startAt.toFixed(decimals)
  if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain)) return typed
  const stepped = (Number(plain) + byStep).toFixed(decimals)
  return Number(stepped) === 0 ? (0).toFixed(decimals) : stepped
}
