/** What the page remembers of its fields until its scripts have taken over; gone once they have. */
export type EarlyTyping = {
  /** By field, in the order of the last change: the text, or whether it is ticked. */
  readonly typed: ReadonlyMap<EventTarget, string | boolean>
  readonly stop: () => void
}

declare global {
  interface Window {
    earlyTyping?: EarlyTyping
  }
}

/** Runs in the page before anything can be typed, so it is plain script and needs nothing else. */
export const earlyTypingScript = `(() => {
  const typed = new Map()
  const note = ({ target }) => {
    typed.delete(target)
    typed.set(target, target.type === 'checkbox' || target.type === 'radio' ? target.checked : target.value)
  }
  addEventListener('input', note, true)
  window.earlyTyping = { typed, stop: () => removeEventListener('input', note, true) }
})()`
