import { StyleSheet } from '@react-pdf/renderer'
import { MONO, SANS } from './fonts'

/** Points in a millimetre: the renderer's own unit is 1/72 in. */
export const PT_PER_MM = 72 / 25.4

export const MARGIN_MM = 12

/**
 * Black ink only. Set-points are read at arm's length, about 700 mm: capitals of 1/200 of the distance, 3.5 mm, are
 * 14 pt type in this face (common practice, no source).
 */
export const SET_POINT_PT = 15

export const style = StyleSheet.create({
  page: {
    paddingTop: MARGIN_MM * PT_PER_MM,
    paddingHorizontal: MARGIN_MM * PT_PER_MM,
    paddingBottom: (MARGIN_MM + 8) * PT_PER_MM,
    fontFamily: SANS,
    fontSize: 9,
    color: '#000',
  },
  title: { fontSize: 19, fontWeight: 600, lineHeight: 1.15 },
  heading: { fontSize: 10.5, fontWeight: 600, marginTop: 9, marginBottom: 3 },
  label: { fontSize: 7, lineHeight: 1.2, color: '#333' },
  value: { fontSize: 10, fontWeight: 600, lineHeight: 1.2 },
  mono: { fontFamily: MONO },
  small: { fontSize: 7.5, lineHeight: 1.2 },
  row: { flexDirection: 'row' },
  rule: { borderBottomWidth: 0.5, borderColor: '#000' },
  heavyRule: { borderBottomWidth: 1.2, borderColor: '#000' },
  cell: { paddingVertical: 2, paddingRight: 8, overflow: 'hidden' },
  columnHead: { fontSize: 7.5, fontWeight: 600, paddingVertical: 2 },
  headCell: { paddingVertical: 2, paddingRight: 8, fontSize: 7.5, fontWeight: 600 },
  box: { borderWidth: 0.6, borderColor: '#000' },
  footer: {
    position: 'absolute',
    bottom: 7 * PT_PER_MM,
    left: MARGIN_MM * PT_PER_MM,
    right: MARGIN_MM * PT_PER_MM,
    flexDirection: 'row',
    justifyContent: 'space-between',
    fontSize: 7.5,
    borderTopWidth: 0.5,
    borderColor: '#000',
    paddingTop: 3,
  },
  void: {
    position: 'absolute',
    top: '38%',
    left: 0,
    right: 0,
    textAlign: 'center',
    fontSize: 150,
    lineHeight: 1,
    fontWeight: 600,
    color: '#000',
    opacity: 0.22,
    transform: 'rotate(-28deg)',
  },
})
