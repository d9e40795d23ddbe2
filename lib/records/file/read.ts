import 'server-only'
import { db } from '@/lib/server/db'

/** The files of a part, without their content. */
export async function readPartFiles(partId: number) {
  return db.storedFile.findMany({
    where: { partId },
    orderBy: { id: 'asc' },
    select: {
      id: true,
      name: true,
      mediaType: true,
      byteCount: true,
      sha256: true,
      createdAt: true,
      createdBy: { select: { name: true } },
    },
  })
}

export type PartFile = Awaited<ReturnType<typeof readPartFiles>>[number]

/** A file as it came in, byte for byte. */
export async function readFileContent(id: number) {
  return db.storedFile.findUnique({
    where: { id },
    select: { name: true, mediaType: true, byteCount: true, sha256: true, content: true },
  })
}
