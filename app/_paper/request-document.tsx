import { View } from '@react-pdf/renderer'
import { formatNumber } from '@/lib/core/format'
import type { LengthUnit } from '@/lib/core/units'
import { type Addressee, LetterHead, type Letterhead, Statements } from './letter-head'
import { type Linework, Views } from './linework'
import { Facts, Heading, PaperFile, type PaperIssue, printedWidthMm, Sheet, Words, WriteBoxes } from './paper'
import { angleText, quantityText } from './quantity'
import { style } from './style'
import { Table } from './table'

export interface RequestData extends PaperIssue {
  readonly letterhead: Letterhead
  readonly source: Addressee
  readonly requestNumber: string
  readonly askedOn: string
  readonly replyBy: string
  readonly lengthUnit: LengthUnit
  readonly partNumber: string
  readonly partRevision: string
  readonly partTitle: string
  readonly tubeText: string
  readonly materialText: string
  readonly endTemperText: string
  readonly drawings: readonly Linework[]
  readonly bends: readonly {
    readonly bendNumber: number
    readonly straightBeforeMm: number
    readonly rotationDeg: number
    readonly angleDeg: number
    readonly centrelineRadiusMm: number
  }[]
  readonly straightAfterMm: number
  readonly developedLengthMm: number
  readonly pointsMm: readonly (readonly [xMm: number, yMm: number, zMm: number])[]
  readonly tolerances: readonly string[]
  readonly requirements: readonly string[]
  readonly quantitiesPieces: readonly number[]
  readonly deliverTo: string
}

/** A price request with all a bender needs, and a form to answer on; a no is an answer too. */
export function RequestDocument({ data }: { data: RequestData }) {
  const length = (lengthMm: number) => quantityText({ lengthMm }, data.lengthUnit).main
  const name = `${data.letterhead.name} · Request ${data.requestNumber}`
  return (
    <PaperFile title={`Request for price ${data.requestNumber}`} author={data.letterhead.name} issue={data}>
      <Sheet issue={data} name={name}>
        <LetterHead
          from={data.letterhead}
          to={data.source}
          kind="Request for price"
          number={data.requestNumber}
          revision={`asked ${data.askedOn}`}
        />
        <Facts
          facts={[
            ['Please answer by', data.replyBy],
            ['Part', `${data.partNumber} rev ${data.partRevision}`],
            ['Title', data.partTitle],
            ['Quantities', data.quantitiesPieces.join(' / ')],
            ['Tube', data.tubeText],
            ['Material', data.materialText],
            ['Temper at the end', data.endTemperText],
            ['Deliver to', data.deliverTo],
          ]}
        />
        <Views views={data.drawings} pageWidthMm={printedWidthMm(data.paper)} heightMm={78} />
        <Heading>Bend table, centreline</Heading>
        <Table
          columns={[
            { head: 'Bend', share: 1 },
            { head: 'Straight before', share: 2, align: 'right', mono: true },
            { head: 'Rotation', share: 2, align: 'right', mono: true },
            { head: 'Angle', share: 2, align: 'right', mono: true },
            { head: 'Centreline radius', share: 2, align: 'right', mono: true },
          ]}
          rows={[
            ...data.bends.map((bend) => [
              String(bend.bendNumber),
              length(bend.straightBeforeMm),
              angleText(bend.rotationDeg),
              angleText(bend.angleDeg),
              length(bend.centrelineRadiusMm),
            ]),
            ['end', length(data.straightAfterMm), '', '', ''],
          ]}
        />
        <Words
          style={style.small}
        >{`Developed length ${length(data.developedLengthMm)}. Rotation is about the tube's axis before the bend, right-hand rule along the tube.`}</Words>
        <Heading>Intersection points, mm</Heading>
        <Table
          columns={[
            { head: 'Point', share: 2 },
            { head: 'x', share: 2, align: 'right', mono: true },
            { head: 'y', share: 2, align: 'right', mono: true },
            { head: 'z', share: 2, align: 'right', mono: true },
          ]}
          rows={data.pointsMm.map((at, index) => [
            pointName(index, data.pointsMm.length),
            ...at.map((mm) => formatNumber(mm, { decimals: 2, keepZeros: true })),
          ])}
        />
        <Heading>Tolerances</Heading>
        <Statements statements={data.tolerances} />
        <Heading>Also needed</Heading>
        <Statements statements={data.requirements} />
      </Sheet>
      <Sheet issue={data} name={`${name}, reply`}>
        <ReplyForm data={data} />
      </Sheet>
    </PaperFile>
  )
}

function pointName(index: number, count: number): string {
  if (index === 0) return 'start'
  return index === count - 1 ? 'end' : `bend ${index}`
}

function ReplyForm({ data }: { data: RequestData }) {
  return (
    <View>
      <Words style={style.title}>{`Reply to request ${data.requestNumber}`}</Words>
      <Words>{`${data.partNumber} rev ${data.partRevision} · to ${data.letterhead.name}${data.letterhead.email ? `, ${data.letterhead.email}` : ''} by ${data.replyBy}`}</Words>
      <Heading>We offer</Heading>
      {data.quantitiesPieces.map((quantityPieces) => (
        <WriteBoxes
          key={quantityPieces}
          labels={[`for ${quantityPieces}: price each`, 'currency', 'lead time, working days', 'remarks']}
        />
      ))}
      <View style={{ marginTop: 8 }}>
        <WriteBoxes labels={['tooling, once', 'set-up, each order', 'minimum order', 'freight']} />
        <WriteBoxes
          labels={[
            'centreline radius you can make',
            'angle tolerance you hold',
            'temper delivered',
            'price valid until',
          ]}
        />
      </View>
      <Heading>We cannot offer, because</Heading>
      {[
        'radius too tight for our dies',
        'no die for this section',
        'alloy or temper',
        'quantity too small',
        'no capacity before the date',
        'other',
      ].map((reason) => (
        <View key={reason} style={{ ...style.row, alignItems: 'center', paddingVertical: 2.5 }}>
          <View style={{ width: 11, height: 11, borderWidth: 0.7, borderColor: '#000', marginRight: 6 }} />
          <Words style={{ fontSize: 10 }}>{reason}</Words>
        </View>
      ))}
      <Heading>Name and date</Heading>
      <WriteBoxes labels={['company', 'name', 'date']} heightMm={13} />
    </View>
  )
}
