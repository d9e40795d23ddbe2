import { angleText, type DrawingUnits, lengthText } from '@/lib/core/drawing/length-text'
import type { DrawnPart, DrawnTube } from '@/lib/core/drawing/part'

export function tubeWords(tube: DrawnTube, units: DrawingUnits): string {
  const size = (mm: number) => lengthText(mm, units)
  const wall = tube.wallMm === undefined ? '' : ` × ${size(tube.wallMm)}`
  if (tube.shape === 'round') return `round tube Ø${size(tube.heightMm)}${wall} ${units}`
  return `${tube.shape} tube ${size(tube.widthMm)} × ${size(tube.heightMm)}${wall} ${units}`
}

/** The drawing in words, for those who can't see it. */
export function partWords(part: DrawnPart, units: DrawingUnits): string {
  const bends = part.bends.map((bend, index) => {
    const turned = bend.rotationDeg === 0 ? '' : `, turned ${angleText(bend.rotationDeg)}`
    return `straight ${lengthText(bend.straightBeforeMm, units)}, bend ${index + 1} of ${angleText(bend.angleDeg)} on radius ${lengthText(bend.centrelineRadiusMm, units)}${turned}`
  })
  return [tubeWords(part.tube, units), ...bends, `straight ${lengthText(part.straightAfterMm, units)}`].join(
    '; ',
  )
}
