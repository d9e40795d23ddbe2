import 'server-only'
import { db } from '@/lib/server/db'
import { fetchContent } from '@/lib/server/file-store'

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

const contentColumns = { sha256: true, content: true, storageKey: true } as const

/** A file as it came in, byte for byte; the content is fetched only when it is asked for. */
export async function readFile(id: number) {
  const file = await db.storedFile.findUnique({
    where: { id },
    select: { name: true, mediaType: true, byteCount: true, sha256: true },
  })
  if (!file) return null
  return {
    ...file,
    content: async () =>
      fetchContent(await db.storedFile.findUniqueOrThrow({ where: { id }, select: contentColumns })),
  }
}
