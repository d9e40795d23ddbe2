import { Image, View } from '@react-pdf/renderer'
import { Words } from './paper'
import { style } from './style'

/** A picture as it was taken in. */
export interface Logo {
  readonly content: Uint8Array
  readonly mediaType: string
}

export interface Letterhead {
  readonly name: string
  readonly addressLines: readonly string[]
  readonly phone?: string
  readonly email?: string
  readonly taxNumber?: string
  readonly logo?: Logo
}

export interface Addressee {
  readonly name: string
  readonly contactName?: string
  readonly addressLines: readonly string[]
}

/** Who writes, what it is, and to whom. */
export function LetterHead({
  from,
  to,
  kind,
  number,
  revision,
}: {
  from: Letterhead
  to: Addressee
  kind: string
  number: string
  revision: string
}) {
  const reach = [from.phone, from.email, from.taxNumber ? `tax no. ${from.taxNumber}` : undefined].filter(
    (part) => part !== undefined,
  )
  return (
    <View>
      <View style={{ ...style.row, ...style.heavyRule, justifyContent: 'space-between', paddingBottom: 4 }}>
        <View style={{ ...style.row, width: '58%', gap: 8 }}>
          {from.logo && <LogoImage {...from.logo} />}
          <View style={{ flex: 1 }}>
            <Words style={{ fontSize: 15, fontWeight: 600 }}>{from.name}</Words>
            <Words style={style.small}>{[...from.addressLines, ...reach].join(' · ')}</Words>
          </View>
        </View>
        <View style={{ width: '40%' }}>
          <Words style={{ fontSize: 15, fontWeight: 600, textAlign: 'right' }}>{`${kind} ${number}`}</Words>
          <Words style={{ ...style.small, textAlign: 'right' }}>{revision}</Words>
        </View>
      </View>
      <View style={{ paddingVertical: 8 }}>
        <Words style={{ fontSize: 10.5, fontWeight: 600 }}>{to.name}</Words>
        {to.contactName ? <Words>{to.contactName}</Words> : null}
        {to.addressLines.map((line, index) => (
          <Words key={`${index}-${line}`}>{line}</Words>
        ))}
      </View>
    </View>
  )
}

/** Inside a box, whatever its proportions: a wide one must leave the name its room. */
function LogoImage({ content, mediaType }: Logo) {
  const format = mediaType === 'image/png' ? 'png' : 'jpg'
  return (
    <Image
      src={{ data: Buffer.from(content), format }}
      style={{ width: 96, height: 40, objectFit: 'contain', objectPosition: '0% 50%' }}
    />
  )
}

/** A numbered list of short statements. */
export function Statements({ statements }: { statements: readonly string[] }) {
  return (
    <View>
      {statements.map((statement, index) => (
        <View key={`${index}-${statement}`} style={{ ...style.row, paddingVertical: 1 }} wrap={false}>
          <Words style={{ width: 16, fontSize: 8.5 }}>{`${index + 1}.`}</Words>
          <Words style={{ flex: 1, fontSize: 8.5 }}>{statement}</Words>
        </View>
      ))}
    </View>
  )
}
