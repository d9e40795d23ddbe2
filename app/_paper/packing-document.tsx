import { View } from '@react-pdf/renderer'
import { formatMass } from '@/lib/core/format'
import { type Addressee, LetterHead, type Letterhead } from './letter-head'
import { Facts, Heading, PaperFile, type PaperIssue, Sheet, Words, WriteBoxes } from './paper'
import { Table } from './table'

export interface PackingData extends PaperIssue {
  readonly letterhead: Letterhead
  readonly shipTo: Addressee
  readonly packingNumber: string
  readonly jobNumber: string
  readonly orderNumber?: string
  readonly shippedOn: string
  readonly carrierText: string
  readonly lines: readonly {
    readonly partNumber: string
    readonly partRevision: string
    readonly description: string
    readonly orderedPieces: number
    readonly shippedPieces: number
    readonly owedPieces: number
    readonly pieceNumbers: readonly string[]
    readonly heatNumbers: readonly string[]
  }[]
  readonly packages: readonly {
    readonly packageNumber: string
    readonly contents: string
    readonly massKg: number
    readonly sizeText: string
  }[]
  readonly enclosed: readonly string[]
  readonly remarks?: string
}

/** What is in the crate, counted, with the numbers that lead back to heat and record. */
export function PackingDocument({ data }: { data: PackingData }) {
  return (
    <PaperFile title={`Packing list ${data.packingNumber}`} author={data.letterhead.name} issue={data}>
      <Sheet issue={data} name={`${data.letterhead.name} · Packing list ${data.packingNumber}`}>
        <LetterHead
          from={data.letterhead}
          to={data.shipTo}
          kind="Packing list"
          number={data.packingNumber}
          revision={`released ${data.shippedOn}`}
        />
        <Facts
          facts={[
            ['Your order', data.orderNumber ?? ''],
            ['Our job', data.jobNumber],
            ['Carrier', data.carrierText],
            ['Packages', data.packages.length === 0 ? '' : String(data.packages.length)],
          ]}
        />
        <Heading>Contents</Heading>
        <Table
          columns={[
            { head: 'Part', share: 2.4 },
            { head: 'Description', share: 3 },
            { head: 'Ordered', share: 1, align: 'right', mono: true },
            { head: 'Shipped', share: 1, align: 'right', mono: true },
            { head: 'Owed', share: 0.8, align: 'right', mono: true },
            { head: 'Pieces', share: 3 },
            { head: 'Heat', share: 1.8 },
            { head: 'Counted', share: 1, tick: true },
          ]}
          rows={data.lines.map((line) => [
            `${line.partNumber} rev ${line.partRevision}`,
            line.description,
            String(line.orderedPieces),
            String(line.shippedPieces),
            String(line.owedPieces),
            line.pieceNumbers.join(', '),
            line.heatNumbers.join(', '),
            '',
          ])}
        />
        <Heading>Packages</Heading>
        {data.packages.length === 0 ? <BlankPackages /> : <PackageTable packages={data.packages} />}
        <Heading>Enclosed papers</Heading>
        <Words>{data.enclosed.length === 0 ? 'None.' : data.enclosed.join('; ')}</Words>
        {data.remarks ? <Words style={{ marginTop: 4 }}>{data.remarks}</Words> : null}
        <Heading>Packed and received</Heading>
        <WriteBoxes labels={['packed by', 'date', 'received by', 'date', 'short or damaged']} heightMm={14} />
      </Sheet>
    </PaperFile>
  )
}

/** Written in by whoever packs: nobody knows before what the crate weighs. */
function BlankPackages() {
  return (
    <View>
      {[1, 2, 3].map((row) => (
        <WriteBoxes key={row} labels={['package', 'contents', 'mass', 'size']} />
      ))}
    </View>
  )
}

function PackageTable({ packages }: { packages: PackingData['packages'] }) {
  return (
    <Table
      columns={[
        { head: 'Package', share: 1.2 },
        { head: 'Contents', share: 4 },
        { head: 'Mass', share: 1.2, align: 'right', mono: true },
        { head: 'Size', share: 2 },
      ]}
      rows={packages.map((one) => [
        one.packageNumber,
        one.contents,
        formatMass(one.massKg, { unit: 'kg', decimals: 1 }),
        one.sizeText,
      ])}
    />
  )
}
