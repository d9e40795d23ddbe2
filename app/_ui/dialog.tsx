'use client'

import { type ReactNode, useId } from 'react'
import { Button, type ButtonKind } from './button'
import { Mark } from './marks'

/** A button and the dialog it opens. `children` may be a function that is handed the way to close it. */
export function Dialog({
  trigger,
  triggerKind = 'plain',
  title,
  children,
}: {
  trigger: ReactNode
  triggerKind?: ButtonKind
  title: string
  children: ReactNode | ((close: () => void) => ReactNode)
}) {
  const id = useId()
  const titleId = `${id}-title`
  const close = () => dialogWith(id)?.close()
  return (
    <>
      <Button kind={triggerKind} onClick={() => dialogWith(id)?.showModal()} aria-haspopup="dialog">
        {trigger}
      </Button>
      <dialog className="float" id={id} aria-labelledby={titleId}>
        <div className="float-head">
          <h2 id={titleId}>{title}</h2>
          <Button kind="quiet" onClick={close} aria-label="Close">
            <Mark name="cross" />
          </Button>
        </div>
        <div className="float-body">{typeof children === 'function' ? children(close) : children}</div>
      </dialog>
    </>
  )
}

function dialogWith(id: string): HTMLDialogElement | null {
  const found = document.getElementById(id)
  return found instanceof HTMLDialogElement ? found : null
}
