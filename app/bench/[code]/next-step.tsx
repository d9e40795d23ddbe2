import { LinkButton } from '@/app/_ui/button'
import { type BendState, nextStepText } from '@/lib/records/bend-record/rules'

const lowerFirst = (text: string) => text.charAt(0).toLowerCase() + text.slice(1)

/** Where to go from here: the bend that is open, or once all are done the next piece. */
export function NextStep({
  code,
  position,
  openAt,
  states,
  nextPiece,
}: {
  code: string
  position: number
  openAt: number
  states: readonly BendState[]
  nextPiece: { number: number; scanCode: string } | null
}) {
  return (
    <div className="stack stack-tight">
      {openAt < 0 && <p className="strong">Every bend of this piece is done.</p>}
      {openAt >= 0 && openAt + 1 !== position && (
        <LinkButton big wide kind="primary" href={`/bench/${code}?bend=${openAt + 1}`}>
          Next: {lowerFirst(nextStepText(states) ?? '')}
        </LinkButton>
      )}
      {nextPiece && (
        <LinkButton
          big={openAt < 0}
          wide={openAt < 0}
          kind={openAt < 0 ? 'primary' : 'plain'}
          href={`/bench/${nextPiece.scanCode}`}
        >
          Go to piece {nextPiece.number}
        </LinkButton>
      )}
    </div>
  )
}
