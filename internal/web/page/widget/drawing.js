// Drawings come from the service as SVG and are set into the page, so that they take the colour of the text around them.
import { h } from './dom.js'

/** @type {Map<string, Promise<Document | null>>} */
const fetched = new Map()

/**
 * A drawing by its address. Its words stand beside it as text, so the drawing itself is silent.
 * @param {string} url @param {HTMLElement} [caption] takes the description the drawing carries
 */
export function drawing(url, caption) {
  const frame = h('span', { class: 'drawing', 'aria-hidden': 'true' })
  load(url).then((picture) => {
    const svg = picture?.documentElement
    if (!svg || svg.localName !== 'svg') return
    if (caption) caption.textContent = svg.querySelector('desc')?.textContent ?? ''
    const copy = document.importNode(svg, true)
    for (const name of ['role', 'aria-labelledby', 'aria-describedby', 'width', 'height']) copy.removeAttribute(name)
    for (const named of copy.querySelectorAll('title, desc')) named.remove()
    for (const named of copy.querySelectorAll('[id]')) named.removeAttribute('id')
    copy.setAttribute('focusable', 'false')
    frame.append(copy)
  })
  return frame
}

/** @param {string} url */
function load(url) {
  const known = fetched.get(url)
  if (known) return known
  const loading = fetch(url, { credentials: 'omit' })
    .then((response) => (response.ok ? response.text() : Promise.reject()))
    .then((text) => new DOMParser().parseFromString(text, 'image/svg+xml'))
    .catch(() => {
      fetched.delete(url)
      return null
    })
  fetched.set(url, loading)
  return loading
}
