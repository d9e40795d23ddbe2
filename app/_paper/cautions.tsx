import { Polygon, Rect, Svg, Text, View } from '@react-pdf/renderer'

export type Hazard =
  | 'moltenAlloy'
  | 'sealedTube'
  | 'leadCadmium'
  | 'pressEjection'
  | 'brittleFill'
  | 'cutEdges'
  | 'residue'
  | 'quench'

/** The hazard first, then the act. Shop practice and 29 CFR 1910.1025, 1910.1027 and 1910.212; local codes may ask for more. */
export const CAUTIONS: Readonly<Record<Hazard, readonly [hazard: string, act: string]>> = {
  moltenAlloy: [
    'Molten alloy burns, and throws metal where it meets trapped water.',
    'Dry tube, plug and ladle. Melt in hot water or a jacket, never a flame. Face shield, gloves, apron. Pour slowly down the wall.',
  ],
  sealedTube: [
    'A tube closed at both ends bursts when heated.',
    'Never plug both ends: one end stays open from pouring to melt-out, and points away from everybody.',
  ],
  leadCadmium: [
    'This alloy holds lead or cadmium: poison by dust, fume and unwashed hands.',
    'No food or smoking here. Nitrile gloves, wash before a break. Never saw, sand, weld or overheat it. Keep dross for disposal.',
  ],
  pressEjection: [
    'The press can throw the work, a shim or the die.',
    'Load on the ram axis, no loose shims, shield down, stand out of its line, hands clear. Let the pressure off before you touch anything.',
  ],
  brittleFill: [
    'A cold or jerked filling cracks at once.',
    'Bend at room temperature, slowly and without stopping short.',
  ],
  cutEdges: [
    'Cut ends are sharp and hot.',
    'Deburr inside and out before the next hand picks the tube up. No gloves near a running blade.',
  ],
  residue: [
    'Filler left inside poisons the weld and eats the tube.',
    'Weigh what came out, pull through, look down the bore. No welding or ageing until the bore is bright.',
  ],
  quench: [
    'A hot tube in water spits steam from its open end.',
    'Open end away from you, face shield, long tongs.',
  ],
}

/** A caution where its hazard is, told by a mark, a word and a frame, not by colour. */
export function Caution({ hazard }: { hazard: Hazard }) {
  const [danger, act] = CAUTIONS[hazard]
  return (
    <View
      style={{
        flexDirection: 'row',
        borderLeftWidth: 2.5,
        borderColor: '#000',
        paddingLeft: 5,
        marginTop: 3,
      }}
      wrap={false}
    >
      <Svg width={13} height={12} viewBox="0 0 13 12">
        <Polygon points="6.5,0.5 12.5,11.5 0.5,11.5" fill="#000" />
        <Rect x={5.8} y={4} width={1.4} height={4} fill="#fff" />
        <Rect x={5.8} y={8.9} width={1.4} height={1.4} fill="#fff" />
      </Svg>
      <Text style={{ flex: 1, paddingLeft: 5, fontSize: 8.5, lineHeight: 1.25 }}>
        <Text style={{ fontWeight: 600 }}>{`Caution. ${danger} `}</Text>
        {act}
      </Text>
    </View>
  )
}
