'use client'

import dynamic from 'next/dynamic'
import { useMemo, useState } from 'react'
import type { DrawingUnits } from '@/lib/core/drawing/length-text'
import { drawablePart, type TypedPart } from '@/lib/core/drawing/part'
import { IsometricDrawing } from './isometric-drawing'
import { partWords } from './part-words'

const Part3dCanvas = dynamic(() => import('./part-3d-canvas').then((file) => file.Part3dCanvas), {
  ssr: false,
})

/** The part as a form that turns. Where the machine has no WebGL, and on paper, the standing drawing takes its place. */
export function Part3d({
  part: typed,
  units = 'mm',
  selectedBend,
}: {
  part: TypedPart
  units?: DrawingUnits
  selectedBend?: number | null
}) {
  const [broken, setBroken] = useState(false)
  const written = JSON.stringify(typed)
  const part = useMemo(() => drawablePart(JSON.parse(written) as TypedPart).part, [written])
  if (broken || !part) return <IsometricDrawing part={typed} units={units} selectedBend={selectedBend} />
  return (
    <>
      <div className="part3d no-print" role="img" aria-label={`Turning model: ${partWords(part, units)}`}>
        <Part3dCanvas part={part} selectedBend={selectedBend ?? null} onBroken={() => setBroken(true)} />
        <div className="part3d-note">Drag to turn, two fingers or wheel to come closer</div>
      </div>
      <div className="print-only">
        <IsometricDrawing part={typed} units={units} selectedBend={selectedBend} />
      </div>
    </>
  )
}
