import { DataTable } from '@/app/_ui/data-table'
import { Section } from '@/app/_ui/section'
import { checkKinds } from '@/lib/core/spec/outside-check'
import { kindWords, outsideResults, sourcesOf } from './results'

/** How the checks are spread over kinds and sources, and what they would not notice. */
export function ProofSection() {
  const kinds = checkKinds.map((kind) => ({
    kind,
    count: outsideResults.filter((result) => result.kind === kind).length,
    sourceCount: sourcesOf(outsideResults.filter((result) => result.kind === kind)).length,
  }))
  return (
    <Section id="proof" title="How it is tested">
      <div className="stack">
        <div className="prose">
          <p>
            The lists above are written by the tests themselves. They fail when a number leaves its tolerance,
            and when a list says something else than the tests found.
          </p>
          <p>
            Tests can be blind. To see how blind, on 26 November 2026 496 small changes were made to lines
            drawn at random from all that computes, a sign, a bound, an operator: the tests noticed 440 of
            them, 89 percent, where 85 was the aim. What they miss is mostly what makes no difference to an
            answer: equality to the last digit, how often a search may try, how a solver gets to its root.
          </p>
        </div>
        <DataTable
          caption="Numbers from outside, by how their values are known"
          rows={kinds}
          rowKey={({ kind }) => kind}
          columns={[
            {
              key: 'kind',
              head: 'Known as',
              title: true,
              cell: ({ kind }) => kindWords[kind],
              foot: 'Together',
            },
            {
              key: 'count',
              head: 'Numbers',
              numeric: true,
              cell: ({ count }) => count,
              foot: outsideResults.length,
            },
            {
              key: 'sources',
              head: 'Sources and methods',
              numeric: true,
              cell: ({ sourceCount }) => sourceCount,
              foot: sourcesOf(outsideResults).length,
            },
          ]}
        />
        <div className="prose">
          <h3>What this does not prove</h3>
          <ul>
            <li>
              That a bend in your press comes out as computed. Nobody’s measured tube bends could be read with
              all they need: material, press, die, strap. Your own readings are the test, and the springback
              factor is what they teach.
            </li>
            <li>
              That a value read second hand is copied right. Buy the standard before you print it on paper
              that a customer signs.
            </li>
            <li>That the forms of flattening and tearing hold outside the range they were made for.</li>
          </ul>
        </div>
      </div>
    </Section>
  )
}
