import Link from 'next/link'
import { PressAction } from '@/app/_shop/press-action'
import { DataTable } from '@/app/_ui/data-table'
import { FoldSection } from '@/app/_ui/fold'
import { type JobPlan, sawnForPieceMm } from '@/lib/records/job/rules'
import { numbersText } from '@/lib/records/job-end/rules'
import { lengthForField } from '@/lib/records/part/rules'
import { freeStockAction, undoCutAction } from '../actions'
import { type JobView, wordsOf } from './job-view'
import { CutForm, ReserveForm } from './stock-forms'

/** The tubes kept for the job, what is cut from each, and what may be taken. */
export function StockSection({ view }: { view: JobView }) {
  const { job, revision, shop, allows, bars } = view
  const { length } = wordsOf(view)
  const plan = job.plan as unknown as JobPlan
  const isOpen = job.status === 'open'
  const cutMm = sawnForPieceMm(plan)
  const free = bars.filter(({ reservedForJobId }) => reservedForJobId === null)
  const reserved = bars.filter(({ reservedForJobId }) => reservedForJobId === job.id)
  const barText = (bar: (typeof bars)[number] | JobView['job']['stockPieces'][number]) =>
    `${bar.isOffcut ? 'Offcut' : 'Bar'} ${bar.id}, ${length(bar.lengthMm)}`
  const choice = (bar: (typeof bars)[number]) => ({
    value: String(bar.id),
    lengthMm: bar.lengthMm,
    label: `${barText(bar)}, ${bar.lot.number}, heat ${bar.lot.heatNumber || 'not noted'}${bar.lot.materialId === revision.materialId ? '' : `, ${bar.lot.materialId}`}${bar.place || bar.lot.place ? `, ${bar.place || bar.lot.place}` : ''}`,
  })
  const uncut = job.pieces.filter(({ status, stockPiece }) => status === 'open' && stockPiece === null)
  const units = { lengthUnit: shop.lengthUnit, currency: shop.currency }
  return (
    <FoldSection
      title="Stock"
      id="stock"
      summary={
        [
          uncut.length > 0 && `${uncut.length} not cut yet`,
          reserved.length > 0 && `${reserved.length} ${reserved.length === 1 ? 'tube' : 'tubes'} reserved`,
        ]
          .filter(Boolean)
          .join(', ') || 'every open piece is cut'
      }
      aside={<Link href="/stock/nest">Plan the cutting</Link>}
      open={view.openId === 'stock'}
    >
      <p className="muted">
        {cutMm === null
          ? 'The plan names no cut length.'
          : `Cut length ${length(cutMm)} a piece${plan.mitred ? ` (straights ${plan.mitred.longLengthsMm.map(length).join(' + ')} over the long points, kerfs between)` : ''}, saw kerf ${length(shop.kerfMm)}.`}{' '}
        {uncut.length > 0
          ? `Not cut yet: ${uncut.length === 1 ? 'piece' : 'pieces'} ${numbersText(uncut.map(({ number }) => number))}.`
          : 'Every open piece is cut.'}
      </p>
      {plan.spec && (
        <p className="muted">
          {plan.certificateText
            ? `Planned with the yield and tensile on the certificate of ${plan.certificateText}.`
            : 'Planned with the material’s own values: all stock reserved must be of one lot with yield and tensile on its certificate for those to count.'}
        </p>
      )}
      <DataTable
        caption="Tubes reserved for this job and those cut for it"
        captionHidden
        rows={job.stockPieces}
        rowKey={(bar) => String(bar.id)}
        empty={<p className="muted">No tube is reserved for this job.</p>}
        columns={[
          { key: 'bar', head: 'Tube', title: true, cell: barText },
          {
            key: 'lot',
            head: 'Lot',
            cell: (bar) => <Link href={`/stock/${bar.lot.id}`}>{bar.lot.number}</Link>,
          },
          {
            key: 'heat',
            head: 'Heat',
            cell: (bar) =>
              bar.lot.heatNumber ? (
                <Link className="mono" href={`/trace?heat=${encodeURIComponent(bar.lot.heatNumber)}`}>
                  {bar.lot.heatNumber}
                </Link>
              ) : (
                <span className="muted">not noted</span>
              ),
          },
          {
            key: 'cut',
            head: 'Cut from it',
            cell: (bar) => {
              const own = bar.pieces.filter(({ jobId }) => jobId === job.id).map(({ number }) => number)
              if (own.length === 0) return bar.usedAt === null ? 'nothing yet' : 'cut outside this job'
              return `${own.length === 1 ? 'piece' : 'pieces'} ${numbersText(own)}`
            },
          },
          {
            key: 'left',
            head: 'Left',
            cell: (bar) => {
              if (bar.usedAt === null) return 'whole'
              return bar.cuts.length === 0
                ? 'nothing kept'
                : bar.cuts.map((offcut) => `offcut ${offcut.id}, ${length(offcut.lengthMm)}`).join('; ')
            },
          },
          ...(isOpen
            ? [
                {
                  key: 'acts',
                  head: 'What to do',
                  cell: (bar: JobView['job']['stockPieces'][number]) => {
                    const name = `tube ${bar.id}`
                    if (bar.usedAt === null)
                      return allows('stock.write') ? (
                        <PressAction
                          label="Give back"
                          name={name}
                          input={{ jobId: job.id, stockPieceIds: [bar.id] }}
                          action={freeStockAction}
                        />
                      ) : null
                    return bar.pieces.length > 0 && allows('bench.write') ? (
                      <PressAction
                        label="Take back the cut"
                        name={name}
                        input={{ jobId: job.id, stockPieceId: bar.id }}
                        action={undoCutAction}
                      />
                    ) : null
                  },
                },
              ]
            : []),
        ]}
      />
      {isOpen && allows('stock.write') && (
        <>
          <h3>Reserve a tube</h3>
          {free.length === 0 ? (
            <p className="muted">
              No free tube of this alloy and size is on the rack. <Link href="/stock/new">Receive a lot</Link>
            </p>
          ) : (
            <ReserveForm key={free.map(({ id }) => id).join()} jobId={job.id} bars={free.map(choice)} />
          )}
        </>
      )}
      {isOpen && allows('bench.write') && reserved.length > 0 && uncut.length > 0 && (
        <>
          <h3>Cut pieces from a reserved tube</h3>
          <CutForm
            key={`${reserved.map(({ id }) => id).join()} ${uncut.length}`}
            jobId={job.id}
            bars={reserved.map(choice)}
            pieces={uncut.map(({ id, number }) => ({ id, number }))}
            cutLengthText={cutMm === null ? '' : lengthForField(cutMm, shop.lengthUnit)}
            kerfMm={shop.kerfMm}
            units={units}
          />
        </>
      )}
    </FoldSection>
  )
}
