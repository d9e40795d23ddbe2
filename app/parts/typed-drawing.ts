import type { EndCut, TypedPart } from '@/lib/core/drawing/part'
import { readAngle } from '@/lib/core/typed/angle'
import { readLength } from '@/lib/core/typed/length'
import type { LengthUnit } from '@/lib/core/units'
import type { PartTyped } from '@/lib/records/part/schema'

type Typed = { [Key in 'bends']: Partial<PartTyped['bends'][number]>[] } & Pick<
  PartTyped,
  'shape' | 'widthMm' | 'heightMm' | 'wallMm' | 'cornerRadiusMm' | 'straightAfterMm' | 'startCut' | 'endCut'
>

/** What of the form can be drawn as it stands: a field that can't be read yet is left out. */
export function typedDrawing(typed: Typed, unit: LengthUnit): TypedPart {
  const length = (text: string | undefined, gauge = false) => {
    const read = readLength(text ?? '', { defaultUnit: unit, gauge })
    return read.ok ? read.lengthMm : null
  }
  const angle = (text: string | undefined) => {
    const read = readAngle(text ?? '')
    return read.ok ? read.angleDeg : null
  }
  const cut = (end: PartTyped['startCut']): EndCut => {
    const rotationDeg = angle(end.rotationDeg) ?? 0
    const angleDeg = angle(end.angleDeg)
    if (end.kind === 'mitre' && angleDeg !== null) return { kind: 'mitre', angleDeg, rotationDeg }
    const onDiameterMm = length(end.onDiameterMm)
    if (end.kind === 'saddle' && onDiameterMm !== null)
      return { kind: 'saddle', onDiameterMm, angleDeg: angleDeg ?? 90, rotationDeg }
    return { kind: 'square' }
  }
  const widthMm = length(typed.widthMm)
  return {
    tube: {
      shape: typed.shape,
      widthMm,
      heightMm: typed.shape === 'rectangular' ? length(typed.heightMm) : widthMm,
      wallMm: length(typed.wallMm, true),
      cornerRadiusMm: length(typed.cornerRadiusMm),
    },
    bends: typed.bends.map((bend) => ({
      straightBeforeMm: length(bend.straightBeforeMm),
      angleDeg: angle(bend.angleDeg),
      centrelineRadiusMm: length(bend.centrelineRadiusMm),
      rotationDeg: angle(bend.rotationDeg),
    })),
    straightAfterMm: length(typed.straightAfterMm),
    startCut: cut(typed.startCut),
    endCut: cut(typed.endCut),
  }
}
