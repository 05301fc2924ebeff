// Marks and caution shapes. All are drawn in the colour of their text, never taken from a font.
import { s } from './dom.js'

/** @typedef {'told' | 'looked_up' | 'assumed' | 'pending' | 'set_aside'} Mark */
/** @typedef {'stop' | 'put_right' | 'take_care' | 'to_check'} Level */

/** @type {Record<Mark, () => SVGElement>} */
const marks = {
  told: () => line('M3 8.5 L6.5 12 L13 4.5'),
  looked_up: () => line('M11 7a4 4 0 1 1-8 0a4 4 0 1 1 8 0zM10 10L14 14'),
  assumed: () => line('M5 6a3 3 0 1 1 4.4 2.6C8.3 9.2 8 9.7 8 10.6M8 13.4v.2'),
  pending: () => line('M8 14V3M4 7l4-4l4 4'),
  set_aside: () => line('M3 8h10'),
}

/** @type {Record<Level, () => SVGElement>} */
const shapes = {
  stop: () => solid('M5 1h6l4 4v6l-4 4H5l-4-4V5z'),
  put_right: () => solid('M8 1.5L15.5 15H.5z'),
  take_care: () => solid('M2 2h12v12H2z'),
  to_check: () => solid('M15 8A7 7 0 1 1 1 8a7 7 0 1 1 14 0z'),
}

/** The mark of a fact's state. @param {Mark} name */
export const mark = (name) => marks[name]()

/** The shape of a caution's level. @param {Level} level */
export const shape = (level) => shapes[level]()

/** @param {string} d */
const line = (d) =>
  frame(s('path', { d, fill: 'none', stroke: 'currentColor', 'stroke-width': 2, 'stroke-linecap': 'round', 'stroke-linejoin': 'round' }))

/** @param {string} d */
const solid = (d) => frame(s('path', { d, fill: 'currentColor' }))

/** @param {SVGElement} path */
const frame = (path) => s('svg', { class: 'mark', viewBox: '0 0 16 16', width: 16, height: 16, 'aria-hidden': 'true', focusable: 'false' }, path)
