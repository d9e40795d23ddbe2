'use client'

import { PictureUpload } from '@/app/_shop/picture-upload'
import { faultPictureAction } from '@/app/jobs/actions'

/** Puts a picture to a fault. */
export function PictureForm({ faultId }: { faultId: number }) {
  return (
    <PictureUpload
      label="Add a picture"
      hint="JPEG or PNG, at most 25 MB"
      more={{ id: String(faultId) }}
      action={faultPictureAction}
    />
  )
}
