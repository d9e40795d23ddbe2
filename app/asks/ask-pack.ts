import type { Logo } from '@/app/_paper/letter-head'
import { letterheadOf, linesOf } from '@/app/_paper/letterhead-of'
import { printedWidthMm } from '@/app/_paper/paper'
import { partLinework } from '@/app/_paper/part-linework'
import { renderPdf } from '@/app/_paper/render'
import { RequestDocument } from '@/app/_paper/request-document'
import { intersectionPoints } from '@/lib/core/geometry/centreline'
import { partDxf } from '@/lib/core/templates/part-dxf'
import {
  type AskPack,
  type AskSending,
  askNumber,
  requirementWords,
  toleranceWords,
} from '@/lib/records/ask/rules'
import { drawnPart, tubeText } from '@/lib/records/part/rules'

const isoDay = (at: Date) => at.toISOString().slice(0, 10)

/** Length along the centreline: straights, and each arc by its radius and angle. */
function developedLengthMm({ bends, straightAfterMm }: AskPack['revision']): number {
  return bends.reduce(
    (sum, bend) => sum + bend.straightBeforeMm + (bend.centrelineRadiusMm * bend.angleDeg * Math.PI) / 180,
    straightAfterMm,
  )
}

export async function requestPdf(
  { ask, source, pack, shop, endTemperText }: AskSending,
  logo: Logo | null = null,
): Promise<Buffer> {
  const { revision } = pack
  return renderPdf(
    RequestDocument({
      data: {
        paper: shop.paper,
        revision: 1,
        printedOn: pack.sentOn,
        printedAtIso: `${isoDay(ask.sentOn)}T12:00:00Z`,
        letterhead: letterheadOf(shop, logo),
        source: {
          name: source.name,
          ...(source.contactText && { contactName: source.contactText }),
          addressLines: [source.email, source.phone].filter((line) => line !== ''),
        },
        requestNumber: askNumber(ask.id),
        askedOn: pack.sentOn,
        replyBy: pack.replyBy,
        lengthUnit: shop.lengthUnit,
        partNumber: pack.partNumber,
        partRevision: pack.letter,
        partTitle: pack.partName,
        tubeText: tubeText(revision, shop.lengthUnit),
        materialText: pack.materialText,
        endTemperText,
        drawings: [
          partLinework(drawnPart(revision), {
            widthMm: printedWidthMm(shop.paper),
            // Of the part alone: titles, dimensions and gaps take as much again.
            heightMm: 38,
            lengthUnit: shop.lengthUnit,
          }),
        ],
        bends: revision.bends.map((bend, index) => ({ ...bend, bendNumber: index + 1 })),
        straightAfterMm: revision.straightAfterMm,
        developedLengthMm: developedLengthMm(revision),
        pointsMm: intersectionPoints(revision.bends, revision.straightAfterMm),
        tolerances: toleranceWords(revision, shop.lengthUnit),
        requirements: requirementWords(pack, shop.lengthUnit),
        quantitiesPieces: pack.quantities,
        deliverTo: linesOf(shop.addressText).join(', ') || 'to be agreed',
      },
    }),
  )
}

export function requestDxf({ pack }: AskSending): string {
  return partDxf({
    title: `${pack.partNumber} rev ${pack.letter} ${pack.partName}`,
    points: intersectionPoints(pack.revision.bends, pack.revision.straightAfterMm),
    centrelineRadiiMm: pack.revision.bends.map(({ centrelineRadiusMm }) => centrelineRadiusMm),
  })
}

/** The part as data for a bender's own program: units in the names, nothing of the customer and no price. */
export function requestJson({ ask, pack }: AskSending) {
  const { revision } = pack
  return {
    request: askNumber(ask.id),
    replyBy: isoDay(ask.chaseOn),
    part: { number: pack.partNumber, revision: pack.letter, name: pack.partName },
    quantities: pack.quantities,
    tube: {
      shape: revision.shape,
      widthMm: revision.widthMm,
      heightMm: revision.heightMm,
      wallMm: revision.wallMm,
      ...(revision.cornerRadiusMm !== null && { cornerRadiusMm: revision.cornerRadiusMm }),
    },
    material: { id: revision.materialId, name: pack.materialText },
    bends: revision.bends,
    straightAfterMm: revision.straightAfterMm,
    developedLengthMm: Number(developedLengthMm(revision).toFixed(3)),
    pointsMm: intersectionPoints(revision.bends, revision.straightAfterMm),
    ends: { start: revision.startCut, end: revision.endCut },
    tolerances: {
      angleDeg: revision.angleToleranceDeg,
      lengthMm: revision.lengthToleranceMm,
      radiusMm: revision.radiusToleranceMm,
      sectionFraction: revision.sectionToleranceFraction,
      general: revision.generalTolerance,
    },
    weldedAfter: revision.weldedAfter,
  }
}
