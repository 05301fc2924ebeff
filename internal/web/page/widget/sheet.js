// The help sheet: a dialog over the page on a phone, beside it on a wide screen. Esc closes; focus goes back to the opener.
import { fresh, h } from './dom.js'
import { words } from './words.js'

const WIDE = 960

/**
 * Opens a sheet inside the host element's shadow root and resolves when it is closed.
 * @param {{into: Element, heading: string, body: (Node | string)[], actions?: {text: string, go?: boolean, run: () => void}[], close?: string}} sheet
 */
export function openSheet({ into, heading, body, actions = [], close = words.sheet.close }) {
  const id = fresh('sheet')
  const opener = /** @type {ShadowRoot} */ (into.getRootNode()).activeElement
  const title = h('h2', { id, tabindex: -1 }, heading)
  const dialog = h(
    'dialog',
    { 'aria-labelledby': id, class: 'new' },
    h(
      'div',
      { class: 'sheet' },
      title,
      ...body,
      h(
        'div',
        { class: 'row' },
        ...actions.map(({ text, go, run }) =>
          h('button', { type: 'button', class: go ? 'go' : false, click: () => { dialog.close(); run() } }, text)),
        h('button', { type: 'button', click: () => dialog.close() }, close),
      ),
    ),
  )
  into.append(dialog)
  dialog.addEventListener('keydown', (event) => {
    if (event.key !== 'Escape') return
    event.preventDefault()
    dialog.close()
  })
  const closed = new Promise((resolve) => dialog.addEventListener('close', () => {
    dialog.remove()
    if (opener instanceof HTMLElement && opener.isConnected) opener.focus()
    resolve(undefined)
  }))
  if (into.getBoundingClientRect().width < WIDE) dialog.showModal()
  else dialog.show()
  title.focus()
  return { dialog, closed }
}

/** Numbered steps. @param {string[]} steps */
export const numbered = (steps) => h('ol', { class: 'numbered' }, ...steps.map((step) => h('li', null, h('span', null, step))))
