/** What the page remembers of its fields until its scripts have taken over; gone once they have. */
export type EarlyTyping = {
  /** By field, in the order of the last change: the text, or whether it is ticked. */
  readonly typed: ReadonlyMap<EventTarget, string | boolean>
  /** Forms that were sent already and that only scripts can send, each with the button that sent it. */
  readonly sent: ReadonlyMap<HTMLFormElement, HTMLElement | null>
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
  const sent = new Map()
  const hold = (event) => {
    // A search, and one that the framework takes without scripts, goes its way.
    if (event.target.method !== 'post' || event.target.hasAttribute('action')) return
    event.preventDefault()
    sent.set(event.target, event.submitter)
  }
  addEventListener('input', note, true)
  addEventListener('submit', hold, true)
  const stop = () => {
    removeEventListener('input', note, true)
    removeEventListener('submit', hold, true)
  }
  window.earlyTyping = { typed, sent, stop }
})()`
