import type { ReactNode } from 'react'
import { QUIET_MODULES, qrPath } from '@/app/_paper/qr-path'
import type { TravellerData } from '@/app/_paper/traveller-data'

/**
 * One paper of a traveller. In print it is a table of one cell, because a table's head is what every browser repeats on each
 * page; on the screen it is nothing but its content.
 */
export function Paper({
  data,
  about,
  children,
}: {
  data: TravellerData
  /** The job, or the piece: what a loose page must say it belongs to. */
  about: string
  children: ReactNode
}) {
  const { job } = data
  return (
    <table className="traveller-paper" role="presentation">
      <thead>
        <tr>
          <td>
            <div className="traveller-running">
              <strong>{about}</strong>
              <span>
                {job.partNumber} revision {job.partRevision}
              </span>
              <span>traveller issue {data.revision}</span>
              <span>
                printed {data.printedOn}
                {data.printedBy && ` by ${data.printedBy}`}
              </span>
            </div>
            {data.void && (
              <p className="traveller-running-void">
                VOID since {data.void.since}: {data.void.because}. Do not work from this paper.
              </p>
            )}
          </td>
        </tr>
      </thead>
      <tbody>
        <tr>
          <td>{children}</td>
        </tr>
      </tbody>
    </table>
  )
}

/** Empty boxes with their names, to write in by hand once printed. */
export function Boxes({ labels }: { labels: readonly string[] }) {
  return (
    <div className="write-row">
      {labels.map((label) => (
        <span key={label} className="write-box">
          {label}
        </span>
      ))}
    </div>
  )
}

export function ScanSquare({ url, label }: { url: string; label: string }) {
  const { d, moduleCount } = qrPath(url)
  const whole = moduleCount + 2 * QUIET_MODULES
  return (
    <svg
      className="scan-square"
      viewBox={`${-QUIET_MODULES} ${-QUIET_MODULES} ${whole} ${whole}`}
      role="img"
      aria-label={label}
    >
      <rect x={-QUIET_MODULES} y={-QUIET_MODULES} width={whole} height={whole} fill="#fff" />
      <path d={d} fill="#000" />
    </svg>
  )
}
