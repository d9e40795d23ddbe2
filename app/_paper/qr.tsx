import { Path, Svg } from '@react-pdf/renderer'
import { QUIET_MODULES, qrPath } from './qr-path'
import { PT_PER_MM } from './style'

export function ScanCode({ text, sizeMm }: { text: string; sizeMm: number }) {
  const { d, moduleCount } = qrPath(text)
  const whole = moduleCount + 2 * QUIET_MODULES
  const sizePt = sizeMm * PT_PER_MM
  return (
    <Svg width={sizePt} height={sizePt} viewBox={`${-QUIET_MODULES} ${-QUIET_MODULES} ${whole} ${whole}`}>
      <Path d={d} fill="#000" />
    </Svg>
  )
}
