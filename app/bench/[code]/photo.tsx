'use client'

import { useState } from 'react'
import { FileField } from '@/app/_ui/field'
import { type FormState, FormStatus } from '@/app/_ui/form-status'
import { useBench } from '../bench-queue'
import { newKey } from '../queue'

const longestSidePx = 1600
const jpegQuality = 0.8

/** The picture made small enough to keep on the device and to send over a weak connection. */
async function smallJpeg(file: File): Promise<string> {
  const picture = await createImageBitmap(file)
  const scale = Math.min(1, longestSidePx / Math.max(picture.width, picture.height))
  const canvas = document.createElement('canvas')
  canvas.width = Math.round(picture.width * scale)
  canvas.height = Math.round(picture.height * scale)
  canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height)
  picture.close()
  return canvas.toDataURL('image/jpeg', jpegQuality).split(',')[1] ?? ''
}

/** Photographs one try or fault; the picture waits on the device like any entry. */
export function Photo({
  recordKey,
  label,
  title = 'Photograph the last try',
}: {
  /** Of the try, or of the entry that opened a fault. */
  recordKey: string
  label: string
  title?: string
}) {
  const { items, userId, add } = useBench()
  const refused = items.find(
    ({ entry, refusal, userId: by }) =>
      refusal !== null && by === userId && entry.kind === 'photo' && entry.recordKey === recordKey,
  )
  const waits = items.some(
    ({ entry, refusal }) => refusal === null && entry.kind === 'photo' && entry.recordKey === recordKey,
  )
  const [status, setStatus] = useState<FormState>({ state: 'idle' })
  const take = async (file: File) => {
    setStatus({ state: 'saving' })
    try {
      const base64 = await smallJpeg(file)
      const clientKey = refused?.key ?? newKey()
      await add({ kind: 'photo', clientKey, recordKey, name: 'bend.jpg', base64 }, label)
      setStatus({ state: 'saved', message: 'Picture taken' })
    } catch {
      setStatus({
        state: 'refused',
        message: 'This is no picture the browser can read, or the device is full.',
      })
    }
  }
  return (
    <>
      <FileField
        label={refused ? 'Take the refused picture again' : title}
        {...(refused?.refusal && { error: refused.refusal.message })}
        accept="image/*"
        capture="environment"
        onChange={(event) => {
          const file = event.target.files?.[0]
          event.target.value = ''
          if (file) void take(file)
        }}
      />
      <FormStatus status={waits && status.state === 'saved' ? { state: 'not-sent' } : status} />
    </>
  )
}
