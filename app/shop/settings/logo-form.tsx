'use client'

import { PictureUpload } from '@/app/_shop/picture-upload'
import { PressAction } from '@/app/_shop/press-action'
import { Section } from '@/app/_ui/section'
import { changeLogoAction, takeLogoOffAction } from '../actions'

/** The picture beside the shop's name on quotes, requests and packing lists. */
export function LogoForm({ logoId, mayChange }: { logoId: number | null; mayChange: boolean }) {
  return (
    <Section title="Logo">
      <div className="stack">
        {logoId === null ? (
          <p className="muted">None: quotes, requests and packing lists go out with the shop’s name alone.</p>
        ) : (
          <>
            {/* A stored file behind its own permission: nothing for an image service to fetch and resize. */}
            {/* eslint-disable-next-line @next/next/no-img-element */}
            <img className="shop-logo" src={`/files/${logoId}`} alt="The shop’s logo" />
            <p className="muted small">
              Stands on quotes, requests and packing lists. Quotes sent before keep the one they went out
              with.
            </p>
          </>
        )}
        {mayChange && (
          <>
            <PictureUpload
              label={logoId === null ? 'Add a logo' : 'Another logo'}
              hint="PNG or JPEG, at most 1 MB; printed up to 34 mm wide and 14 mm high"
              action={changeLogoAction}
            />
            {logoId !== null && (
              <PressAction action={takeLogoOffAction} input={{}} kind="quiet" label="Take it off" />
            )}
          </>
        )}
      </div>
    </Section>
  )
}
