import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { rowId } from '@/app/_shop/row-id'
import { LinkButton } from '@/app/_ui/button'
import { Notice } from '@/app/_ui/notice'
import { Section } from '@/app/_ui/section'
import { wayNames } from '@/lib/core/cost/ways'
import { formatDateTime, formatPercent } from '@/lib/core/format'
import { readDraftQuotes, readEstimate, readEstimateGround, readEstimates } from '@/lib/records/estimate/read'
import { ratesOf } from '@/lib/records/estimate/rules'
import { ageWords, estimateAge } from '@/lib/records/estimate-age/rules'
import { yieldSource } from '@/lib/records/estimate-rate/rules'
import { readPart } from '@/lib/records/part/read'
import { readShop } from '@/lib/records/shop/read'
import { may, requireActor } from '@/lib/server/session'
import '../../parts/_estimate/estimate.css'
import '../../stock/nest/nest.css'
import { MoneyShare } from '../../parts/_estimate/money-share'
import { sheetDay } from '../../parts/_estimate/number-chains'
import { OperationRows } from '../../parts/_estimate/operation-rows'
import { QuantityResults } from '../../parts/_estimate/quantity-results'
import { SetByHand } from '../../parts/_estimate/set-by-hand'
import { FillerFacts, TubeFacts } from '../../parts/_estimate/tube-facts'
import { VersionList } from '../../parts/_estimate/version-list'
import { PartHead } from '../../parts/part-head'
import { TakeIntoQuote } from './take-into-quote'
import { VersionAgainst } from './version-against'

type Asked = { params: Promise<{ id: string }>; searchParams: Promise<{ against?: string; pieces?: string }> }

async function versionOf(params: Asked['params']) {
  const id = rowId((await params).id)
  const version = id === null ? null : await readEstimate(id)
  return version ?? notFound()
}

export async function generateMetadata({ params }: Asked): Promise<Metadata> {
  await requireActor('estimate.read')
  const { number } = await versionOf(params)
  return { title: `Estimate, version ${number}` }
}

/** One version as it was kept: what it was made from, what came out, and what has changed since. */
export default async function EstimateVersionPage({ params, searchParams }: Asked) {
  const actor = await requireActor('estimate.read')
  const version = await versionOf(params)
  const { against, pieces } = await searchParams
  const [shop, versions, now] = await Promise.all([
    readShop(),
    readEstimates(version.revisionId),
    readEstimateGround(version.revisionId),
  ])
  const part = now && (await readPart(now.part.part.id))
  if (!now || !part) notFound()
  const { inputs, results } = version
  const { basis, ground, ask } = inputs
  const age = ageWords(estimateAge(ground, now.ground))
  const before = versions.find(({ id }) => String(id) === against)
  const shown =
    results.quantities.find(({ pieceCount }) => String(pieceCount) === pieces) ??
    results.quantities[Math.min(1, results.quantities.length - 1)]
  const units = { lengthUnit: shop.lengthUnit, currency: shop.currency }
  const rates = ratesOf(ground.rates, ask)
  const chain = {
    rates,
    rateOverrides: ask.rateOverrides,
    ratesOn: ground.ratesOn,
    currency: shop.currency,
    timeZone: shop.timeZone,
    lengthUnit: shop.lengthUnit,
  }
  const drafts = may(actor, 'quote.write') ? await readDraftQuotes(part.customer.id) : []
  const here = `/estimates/${version.id}`
  return (
    <>
      <PartHead part={part} revision={now.part} allows={(needs) => may(actor, needs)} current="estimate" />
      <div className="stack stack-loose">
        <Section
          title={`Version ${version.number}: ${wayNames[ask.way]}`}
          aside={
            <LinkButton href={`/parts/${part.id}/estimate?rev=${now.part.letter}`}>
              Work on it further
            </LinkButton>
          }
        >
          <div className="stack">
            <p className="muted">
              Made{' '}
              {formatDateTime(version.createdAt.toISOString(), { locale: 'en-US', timeZone: shop.timeZone })}
              {version.createdBy && ` by ${version.createdBy.name}`}, with the rates of {sheetDay(chain)}.
              Good the first time: {formatPercent(ask.yieldFraction)},{' '}
              {ask.yieldReason
                ? `set for this estimate: ${ask.yieldReason}`
                : yieldSource(ground.rates, ground.yieldRecord ?? null, sheetDay(chain))}
              . It stays as it is.
            </p>
            {age && (
              <Notice kind="caution" title={age}>
                Work on it further and save the next version before it is quoted.
              </Notice>
            )}
            <QuantityResults quantities={results.quantities} currency={shop.currency} />
          </div>
        </Section>
        {may(actor, 'quote.write') && (
          <Section title="Into a quote" id="quote">
            <TakeIntoQuote
              start={{
                estimateId: String(version.id),
                quoteId: drafts[0] ? String(drafts[0].id) : '',
                pricingBy: ask.pricing.by,
                pricingPct: String(ask.pricing.ppm / 10_000),
              }}
              drafts={drafts}
              quantities={results.quantities.map(({ priced }) => priced)}
              rounding={rates.priceRounding}
              currency={shop.currency}
            />
          </Section>
        )}
        {before && <VersionAgainst before={before} after={version} units={units} />}
        {shown && (
          <>
            <nav className="row" aria-label="Quantity shown below">
              <span className="small strong">Shown below</span>
              {results.quantities.map(({ pieceCount }) => (
                <Link
                  key={pieceCount}
                  className="button"
                  href={`${here}?pieces=${pieceCount}${before ? `&against=${before.id}` : ''}`}
                  aria-current={pieceCount === shown.pieceCount ? 'true' : undefined}
                  scroll={false}
                >
                  {pieceCount} {pieceCount === 1 ? 'piece' : 'pieces'}
                </Link>
              ))}
            </nav>
            <Section title="Where the money goes">
              <MoneyShare estimate={shown.estimate} units={units} />
            </Section>
            <Section title="Operations">
              <OperationRows estimate={shown.estimate} computed={[]} ground={chain} edit={null} />
            </Section>
            <Section title="Set for this estimate" id="set">
              <SetByHand inputs={inputs} estimate={shown.estimate} units={units} />
            </Section>
            <Section title="Tube">
              <TubeFacts
                basis={basis}
                tube={shown.tube}
                rackNames={Object.fromEntries(
                  ground.tubes.flatMap(({ bars }) => bars.map(({ key, name }) => [key, name])),
                )}
                starts={shown.estimate.starts}
                kerfMm={ground.shop.kerfMm}
                units={units}
              />
            </Section>
            {basis.filler && (
              <Section title="Filler, as the pot stood then">
                <FillerFacts
                  basis={basis}
                  pot={ground.tools.pot}
                  pieceCount={shown.pieceCount}
                  starts={shown.estimate.starts}
                  rates={rates}
                  lengthUnit={shop.lengthUnit}
                />
              </Section>
            )}
          </>
        )}
        <Section title="Versions kept" id="versions">
          <div className="stack">
            <VersionList versions={versions} currency={shop.currency} timeZone={shop.timeZone} />
            {versions.length > 1 && (
              <p className="row">
                <span>Set this version against</span>
                {versions
                  .filter(({ id }) => id !== version.id)
                  .map(({ id, number }) => (
                    <Link key={id} className="button" href={`${here}?against=${id}#against`}>
                      version {number}
                    </Link>
                  ))}
              </p>
            )}
          </div>
        </Section>
      </div>
    </>
  )
}
