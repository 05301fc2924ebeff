// The few lines that stand in for a framework: make an element, find one, name one.

/** @typedef {Node | string | number | null | undefined | false} Child */
/** @typedef {Record<string, any>} Props attributes; a function is a listener for the event of that name */

const SVG = 'http://www.w3.org/2000/svg'

/**
 * Makes an HTML element. A prop that is false, null or undefined is left out; true is an attribute without a value.
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} tag @param {Props | null} [props] @param {...(Child | Child[])} children
 * @returns {HTMLElementTagNameMap[K]}
 */
export function h(tag, props, ...children) {
  const element = document.createElement(tag)
  dress(element, props ?? {})
  fill(element, children)
  return element
}

/**
 * Makes an SVG element; the drawing attributes are presentation attributes, so a strict content policy lets them be.
 * @param {string} tag @param {Props} props @param {...Child} children @returns {SVGElement}
 */
export function s(tag, props, ...children) {
  const element = document.createElementNS(SVG, tag)
  dress(element, props)
  fill(element, children)
  return element
}

/** @param {Element} element @param {Props} props */
function dress(element, props) {
  for (const [name, value] of Object.entries(props)) {
    if (value === false || value === null || value === undefined) continue
    if (typeof value === 'function') element.addEventListener(name, value)
    else element.setAttribute(name, value === true ? '' : String(value))
  }
}

/** @param {Element} element @param {(Child | Child[])[]} children */
function fill(element, children) {
  for (const child of children.flat()) {
    if (child === false || child === null || child === undefined || child === '') continue
    element.append(child instanceof Node ? child : String(child))
  }
}

let last = 0

/** An id not used before in this page; parts that point at each other share one root. @param {string} stem */
export function fresh(stem) {
  last += 1
  return `${stem}-${last}`
}

/**
 * Text for ears alone.
 * @param {string} text
 */
export const unseen = (text) => h('span', { class: 'unseen' }, text)
