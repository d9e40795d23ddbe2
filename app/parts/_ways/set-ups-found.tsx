import { PressAction } from '@/app/_shop/press-action'
import { DataTable } from '@/app/_ui/data-table'
import { Notice } from '@/app/_ui/notice'
import { formatLength, formatNumber } from '@/lib/core/format'
import { readSentence } from '@/lib/core/sentence'
import { shopFormat } from '@/lib/core/shop-format'
import type { Change, SetUp, SetUpsFound } from '@/lib/core/spec/setup-finder'
import { pouredAlloy } from '@/lib/core/spec/shop-tools'
import type { LengthUnit } from '@/lib/core/units'
import type { Tooling } from '@/lib/records/setup/rules'
import { type SetupTyped, supportWords } from '@/lib/records/setup/schema'
import { laidOutSpanMm } from '@/lib/records/way/rules'
import { saveSetupAction } from '../actions'

const mostShown = 8

/** The set-ups the shop's own tools allow, best first, each taken with one press; or the smallest changes that would do. */
export function SetUpsFoundList({
  found,
  tooling,
  unit,
  typed,
  chosen,
  mayWrite,
}: {
  found: SetUpsFound
  tooling: Tooling
  unit: LengthUnit
  typed: (setUp: SetUp) => SetupTyped
  /** The set-up saved now, to say which of these it is. */
  chosen: SetupTyped | null
  mayWrite: boolean
}) {
  if (found.setUps.length === 0) return <NoSetUp found={found} tooling={tooling} unit={unit} />
  const length = (mm: number) => formatLength(mm, unit)
  const isChosen = (setUp: SetUp) => {
    const { version: _, ...one } = typed(setUp)
    const { version: __, ...now } = chosen ?? { version: 0 }
    return JSON.stringify(one) === JSON.stringify(now)
  }
  const rows = found.setUps.slice(0, mostShown).map((setUp, index) => ({ setUp, rank: index + 1 }))
  return (
    <DataTable
      caption="Set-ups that make it, best first"
      captionHidden
      rows={rows}
      rowKey={({ rank }) => String(rank)}
      empty={null}
      columns={[
        { key: 'rank', head: 'Set-up', title: true, cell: ({ rank }) => `Set-up ${rank}` },
        {
          key: 'press',
          head: 'Press and span',
          cell: ({ setUp }) =>
            `${pressName(setUp.pressId, tooling)}, ${length(spanMm(setUp, tooling, unit))}`,
        },
        { key: 'bore', head: 'In the bore', cell: ({ setUp }) => boreText(setUp) },
        {
          key: 'strap',
          head: 'Strap',
          cell: ({ setUp }) =>
            tooling.straps.find(({ id }) => String(id) === setUp.strapId)?.shopNumber ?? 'none',
        },
        { key: 'die', head: 'Die', cell: ({ setUp }) => dieText(setUp, tooling, unit) },
        {
          key: 'force',
          head: 'Most force',
          cell: ({ setUp }) =>
            shopFormat(unit).force(Math.max(...setUp.answer.bends.map(({ pressForceKn }) => pressForceKn))),
        },
        {
          key: 'margin',
          head: 'Least to spare',
          cell: ({ setUp }) => (
            <span className="stack stack-tight">
              <span>{formatNumber(setUp.worst.marginFraction * 100, { decimals: 0 })} %</span>
              <span className="muted small">{readSentence(setUp.worst.text, unit)}</span>
            </span>
          ),
        },
        {
          key: 'take',
          head: '',
          cell: ({ setUp, rank }) =>
            isChosen(setUp) ? (
              <strong>chosen</strong>
            ) : mayWrite ? (
              <PressAction
                label="Take it"
                name={`set-up ${rank}`}
                input={typed(setUp)}
                action={saveSetupAction}
              />
            ) : null,
        },
      ]}
    />
  )
}

/** The span as it is taken: laid out with a rule, not to the thousandth the finder asks for. */
function spanMm(setUp: SetUp, tooling: Tooling, unit: LengthUnit): number {
  const press = tooling.presses.find(({ id }) => String(id) === setUp.pressId)
  return laidOutSpanMm(setUp.spanMm, press?.maximumSpanMm ?? setUp.spanMm, unit)
}

const pressName = (id: string, tooling: Tooling) =>
  tooling.presses.find((press) => String(press.id) === id)?.shopNumber ?? id

function boreText({ method }: SetUp): string {
  const filler = method.support === 'lowMelt' ? pouredAlloy(method)?.name : null
  return filler ? `${supportWords[method.support]}, ${filler}` : supportWords[method.support]
}

function dieText(setUp: SetUp, tooling: Tooling, unit: LengthUnit): string {
  const words = setUp.dies.map(({ dieId, surfaceRadiusMm }) => {
    const own = tooling.dies.find(({ id }) => String(id) === dieId)
    return own ? own.shopNumber : `make one, R ${formatLength(surfaceRadiusMm, unit)}`
  })
  return [...new Set(words)].join('; ')
}

function NoSetUp({ found, tooling, unit }: { found: SetUpsFound; tooling: Tooling; unit: LengthUnit }) {
  return (
    <div className="stack">
      <Notice kind="stop" title="None of the shop’s set-ups makes this part">
        {found.changes.length > 0
          ? 'The smallest changes that would, each tried on the model:'
          : 'No single change of span, strap, wall, radius or press makes it: look at the ways that bend it soft, weld it or send it out.'}
      </Notice>
      {found.changes.length > 0 && (
        <ul className="ruled-list">
          {found.changes.map((change) => (
            <li key={change.kind}>
              <strong>{changeWords[change.kind]}</strong>: {changeText(change, tooling, unit)}
            </li>
          ))}
        </ul>
      )}
      {found.blocked.length > 0 && (
        <details>
          <summary>What stands in the way, set-up by set-up</summary>
          <ul>
            {found.blocked.map((blocked) => (
              <li key={`${blocked.pressId} ${JSON.stringify(blocked.method)} ${blocked.strapId}`}>
                {pressName(blocked.pressId, tooling)}, {supportWords[blocked.method.support]}
                {blocked.strapId &&
                  `, strap ${tooling.straps.find(({ id }) => String(id) === blocked.strapId)?.shopNumber ?? ''}`}
                : {readSentence(blocked.because, unit)}
              </li>
            ))}
          </ul>
        </details>
      )}
    </div>
  )
}

const changeWords: Readonly<Record<Change['kind'], string>> = {
  span: 'Span',
  strap: 'Strap',
  wall: 'Wall',
  radius: 'Radius',
  press: 'Press',
}

function changeText({ text, kind, setUp }: Change, tooling: Tooling, unit: LengthUnit): string {
  const named = tooling.presses.reduce(
    (words, press) =>
      words.replace(new RegExp(`on ${press.id}\\b|of ${press.id}$`), `on ${press.shopNumber}`),
    text,
  )
  const how = kind === 'strap' ? '' : `, ${boreText(setUp)}`
  return `${readSentence(named, unit)}${how}`
}
