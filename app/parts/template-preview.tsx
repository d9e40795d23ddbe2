import { boundsOf, type Template } from '@/lib/core/templates/primitive'
import { lineLook, svgPath } from '@/lib/core/templates/svg'

/** A template drawn small, to know it by; what is cut is the print. */
export function TemplatePreview({ template }: { template: Template }) {
  const { leftMm, bottomMm, rightMm, topMm } = boundsOf(template.primitives)
  const [widthMm, heightMm] = [rightMm - leftMm + 6, topMm - bottomMm + 6]
  return (
    <svg
      className="template-preview"
      viewBox={`${leftMm - 3} ${-topMm - 3} ${widthMm} ${heightMm}`}
      role="img"
      aria-label={`Preview: ${template.title}`}
    >
      {template.primitives.map((primitive, index) => {
        if (primitive.kind === 'text') return null
        const { dashesMm } = lineLook(primitive.layer)
        return (
          <path
            key={index}
            d={svgPath(primitive)}
            fill="none"
            stroke="currentColor"
            strokeWidth={primitive.layer === 'CUT' ? 1.5 : 0.75}
            vectorEffect="non-scaling-stroke"
            strokeDasharray={dashesMm ? '4 3' : undefined}
          />
        )
      })}
    </svg>
  )
}
