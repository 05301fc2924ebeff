// The help sheet: a dialog over the page on a phone, beside it on a wide screen. Esc closes; focus goes back to the opener.
import { fresh, h } from './dom.js'
import { words } from './words.js'

const WIDE = 960

/** @type {(() => void) | undefined} shuts the sheet that is open; there is one at a time */
let shutOpen

/**
 * Opens a sheet inside the host element's shadow root and gives what shuts it.
 * @param {{into: Element, heading: string, body: (Node | string)[], actions?: {text: string, run: () => void}[], close?: string, closeFirst?: boolean}} sheet
 * @returns {() => void}
 */
export function openSheet({ into, heading, body, actions = [], close = words.sheet.close, closeFirst = false }) {
  shutOpen?.()
  const id = fresh('sheet')
  const opener = /** @type {ShadowRoot} */ (into.getRootNode()).activeElement
  const title = h('h2', { id, tabindex: -1 }, heading)
  // Shut at once, not on the close event: that comes later and would take the focus from what was opened since.
  const shut = () => {
    if (!dialog.isConnected) return
    dialog.close()
    dialog.remove()
    if (opener instanceof HTMLElement && opener.isConnected) opener.focus()
  }
  const leave = h('button', { type: 'button', class: closeFirst && 'go', click: shut }, close)
  const dialog = h(
    'dialog',
    {
      'aria-labelledby': id, class: 'new',
      cancel: (/** @type {Event} */ event) => { event.preventDefault(); shut() },
      keydown: (/** @type {KeyboardEvent} */ event) => { if (event.key === 'Escape') { event.preventDefault(); shut() } },
    },
    h('div', { class: 'sheet' }, title, ...body, h('div', { class: 'row' },
      closeFirst && leave,
      ...actions.map(({ text, run }) => h('button', { type: 'button', click: () => { shut(); run() } }, text)),
      !closeFirst && leave)),
  )
  shutOpen = shut
  into.append(dialog)
  if (into.getBoundingClientRect().width < WIDE) dialog.showModal()
  else dialog.show()
  title.focus()
  return shut
}

/** Numbered steps. @param {string[]} steps */
export const numbered = (steps) => h('ol', { class: 'numbered' }, ...steps.map((step) => h('li', null, h('span', null, step))))
