import { classNames } from './class-names'

/** A number with its unit, smaller and lighter, never broken from it. `value` is already formatted text. */
export function Quantity({
  value,
  unit,
  className,
}: {
  value: string | number
  unit?: string
  className?: string
}) {
  const close = unit === '°' || unit === '%' || unit === '″'
  return (
    <span className={classNames('quantity', className)}>
      {value}
      {unit && <span className={close ? 'unit unit-close' : 'unit'}>{close ? unit : `\u00a0${unit}`}</span>}
    </span>
  )
}
