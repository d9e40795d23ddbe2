'use client'

import { useEffect } from 'react'
import './early-typing-script'

/**
 * Gives the page's forms what was typed before their scripts had taken over: a slow phone shows a field long before
 * that, and a field that starts from a value would be set back to it. Stands behind everything else in the page, so
 * that its effect comes last.
 */
export function EarlyTypingGivenBack() {
  useEffect(() => {
    const early = window.earlyTyping
    if (!early) return
    early.stop()
    for (const [field, entered] of early.typed) if (isOnPage(field)) enter(field, entered)
    for (const [form, button] of early.sent) if (form.isConnected) form.requestSubmit(button)
    // That it is gone says that the page is live.
    delete window.earlyTyping
  }, [])
  return null
}

type Entry = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement

function isOnPage(target: EventTarget): target is Entry {
  const isField =
    target instanceof HTMLInputElement ||
    target instanceof HTMLTextAreaElement ||
    target instanceof HTMLSelectElement
  return isField && target.isConnected && !target.disabled
}

/** As if it was entered now. React hears of a change only if the field differs from what it last saw it set to. */
function enter(field: Entry, entered: string | boolean): void {
  if (typeof entered === 'boolean') {
    if (!(field instanceof HTMLInputElement)) return
    field.checked = !entered
    field.click()
    return
  }
  // A file can't be put into its field by a script, and need not be: the field still holds it.
  if (!(field instanceof HTMLSelectElement) && field.type !== 'file') typeOver(field, entered)
  if (field instanceof HTMLSelectElement) field.value = entered
  for (const event of ['input', 'change']) field.dispatchEvent(new Event(event, { bubbles: true }))
}

function typeOver(field: HTMLInputElement | HTMLTextAreaElement, text: string): void {
  const { selectionStart, selectionEnd } = field
  const own = field instanceof HTMLInputElement ? HTMLInputElement.prototype : HTMLTextAreaElement.prototype
  field.value = text === '' ? field.defaultValue : ''
  // Past the setter by which React notes what it has seen.
  Object.getOwnPropertyDescriptor(own, 'value')?.set?.call(field, text)
  if (document.activeElement === field && selectionStart !== null)
    field.setSelectionRange(selectionStart, selectionEnd)
}
