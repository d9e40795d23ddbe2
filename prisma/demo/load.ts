import { newCustomerForm } from '@/lib/records/customer/schema'
import { addCustomer } from '@/lib/records/customer/write'
import { markDemo } from '@/lib/records/demo/write'
import { emptyPart } from '@/lib/records/part/rules'
import { newPartForm } from '@/lib/records/part/schema'
import { addPart } from '@/lib/records/part/write'
import { setupForm } from '@/lib/records/setup/schema'
import { saveSetup } from '@/lib/records/setup/write'
import {
  fillerEntryForm,
  newDieForm,
  newFillerForm,
  newPressForm,
  newStrapForm,
} from '@/lib/records/tooling/schema'
import { addDie, addFiller, addPress, addStrap, enterFillerMove } from '@/lib/records/tooling/write'
import { db } from '@/lib/server/db'
import type { Actor } from '@/lib/server/session'
import { loadDemoAsks } from './asks'
import { loadDemoDecisions } from './decisions'
import { loadDemoEstimates } from './estimates'
import { loadDemoOrders } from './orders'
import { type DemoPart, demoCustomers, demoParts } from './parts-list'
import { loadDemoStock } from './stock'

type Units = { lengthUnit: 'in'; currency: string }
type Tools = {
  smallPressId: number
  bigPressId: number
  strapId: number
  fillerId: number
  sandId: number
  dieIds: Record<string, number>
}

/** Tidewrack Fabrication, entered through the same forms and writes as a user's own entries. */
export async function loadDemo(owner: Actor): Promise<void> {
  const { currency } = await db.shop.findUniqueOrThrow({ where: { id: 1 }, select: { currency: true } })
  const units: Units = { lengthUnit: 'in', currency }
  const tools = await loadTools(units, owner)
  const customerIds: number[] = []
  for (const [name, addressText, contact, roleText] of demoCustomers) {
    const { id } = await addCustomer(
      newCustomerForm.parse({
        name,
        addressText,
        notesText: '',
        contacts: [{ name: contact, roleText, email: '', phone: '' }],
      }),
      owner,
    )
    customerIds.push(id)
  }
  const parts = []
  for (const part of demoParts) {
    const customerId = customerIds[part.customer] ?? 0
    const saved = await addPart(newPartForm(units).parse(typedPart(part, customerId, units)), owner)
    await saveSetup(setupForm(units).parse(typedSetup(part, saved.revisionId, tools)), owner)
    parts.push({ ...part, customerId, revisionId: saved.revisionId })
  }
  const estimates = await loadDemoEstimates(parts, units, owner)
  await loadDemoOrders(parts, estimates, units, owner)
  await loadDemoStock(parts, units, owner)
  await loadDemoAsks(parts, units, owner)
  await loadDemoDecisions(parts, owner)
  await markDemo()
}

function typedPart(part: DemoPart, customerId: number, units: Units) {
  const [shape, widthMm, heightMm, wallMm] = part.tube
  const cut = (angle: string) =>
    angle === ''
      ? ({ kind: 'square', angleDeg: '', rotationDeg: '', onDiameterMm: '' } as const)
      : ({ kind: 'mitre', angleDeg: angle, rotationDeg: '0', onDiameterMm: '' } as const)
  return {
    ...emptyPart(units),
    customerId: String(customerId),
    name: part.name,
    customerRef: part.ref,
    shape,
    widthMm,
    heightMm,
    wallMm,
    materialId: part.material,
    bends: part.bends.map(([straightBeforeMm, angleDeg, centrelineRadiusMm, rotationDeg]) => ({
      straightBeforeMm,
      angleDeg,
      centrelineRadiusMm,
      rotationDeg,
    })),
    straightAfterMm: part.after,
    startCut: cut(part.ends[0]),
    endCut: cut(part.ends[1]),
    weldedAfter: part.welded ?? false,
    couldHurt: part.hurts ?? false,
    typicalQuantity: String(part.quantity),
  }
}

function typedSetup(part: DemoPart, revisionId: number, tools: Tools) {
  const filled = { hollow: '', sand: String(tools.sandId), lowMelt: String(tools.fillerId) }[part.support]
  return {
    revisionId: String(revisionId),
    version: 0,
    support: part.support,
    pressId: String(tools.bigPressId),
    supportSpanMm: part.span,
    dieId: '',
    strapId: part.strap ? String(tools.strapId) : '',
    fillerId: filled,
  }
}

async function loadTools(units: Units, owner: Actor): Promise<Tools> {
  const press = {
    strokeMm: '8',
    supportNoseRadiusMm: '1',
    supportFrictionCoeff: '',
    minimumSpanMm: '6',
    notesText: '',
  }
  const small = await addPress(
    newPressForm(units).parse({
      ...press,
      shopNumber: 'PR-1',
      name: 'Bench press, 12 US ton',
      capacityKn: '106 kN',
      maximumSpanMm: '24',
    }),
    owner,
  )
  const big = await addPress(
    newPressForm(units).parse({
      ...press,
      shopNumber: 'PR-2',
      name: 'H-frame press, 20 US ton',
      capacityKn: '178 kN',
      maximumSpanMm: '36',
    }),
    owner,
  )
  const dieIds: Record<string, number> = {}
  for (const [shopNumber, radius, groove, notesText] of [
    ['D-05', '4-1/2', '1.00', 'Oak, lined with steel sheet'],
    ['D-10', '9-1/4', '1.50', 'Laminated birch'],
    ['D-12', '10-3/8', '1.50', 'Aluminium plate, for the davit arms'],
    ['D-18', '16-1/2', '2.00', 'Laminated birch'],
  ] as const) {
    const die = newDieForm(units).parse({
      shopNumber,
      surfaceRadiusMm: radius,
      grooveWidthMm: groove,
      arcDeg: '100',
      place: 'Die rack',
      notesText,
    })
    dieIds[shopNumber] = (await addDie(die, owner)).id
  }
  const strap = newStrapForm(units).parse({
    shopNumber: 'S-1',
    thicknessMm: '1/8',
    widthMm: '1-1/2',
    lengthMm: '48',
    yieldMPa: '36 ksi',
    frictionCoeff: '',
    place: 'Press side',
    notesText: '',
  })
  const pot = { lotText: '', densityKgM3: '', yieldMPa: '', modulusMPa: '', notesText: '' }
  const eutectic = newFillerForm(units).parse({
    ...pot,
    shopNumber: 'F-1',
    name: 'Pot of the 158 F alloy',
    fillerId: 'bi-158',
    lotText: 'Lot 2209',
    priceCentsPerKg: '48.00',
  })
  const sand = newFillerForm(units).parse({
    ...pot,
    shopNumber: 'F-2',
    name: 'Kiln-dried sand',
    fillerId: 'sand',
    priceCentsPerKg: '0.40',
  })
  const { id: strapId } = await addStrap(strap, owner)
  const { id: fillerId } = await addFiller(eutectic, owner)
  const { id: sandId } = await addFiller(sand, owner)
  for (const [id, massKg, noteText] of [
    [fillerId, '45 kg', 'First filling of the pot'],
    [sandId, '120 kg', 'Six bags'],
  ] as const) {
    await enterFillerMove(
      fillerEntryForm(units).parse({ fillerId: String(id), kind: 'bought', massKg, noteText }),
      owner,
    )
  }
  return { smallPressId: small.id, bigPressId: big.id, strapId, fillerId, sandId, dieIds }
}
