// Pick the drawing that matches. Outlets hang either way up, so the drawings can be turned; two that look alike can be compared.
import { fresh, h } from '../dom.js'
import { drawing } from '../drawing.js'
import { openSheet } from '../sheet.js'
import { words } from '../words.js'
import { choiceButton } from './choice.js'

/** @typedef {import('./kinds.js').Asked} Asked */
/** @typedef {import('../wire').Choice} Choice */

/** @param {Asked} asked @returns {import('./kinds.js').Part} */
export function pictureAnswer({ question, titleId, before, send, pictures, into }) {
  const choices = question.choices ?? []
  // Among outlets a choice without a face, such as "None of these", is no drawing.
  const faces = choices.filter((choice) => choice.face)
  const drawn = faces.length ? faces : choices.filter((choice) => pictures(choice))
  const plain = choices.filter((choice) => !drawn.includes(choice))
  const button = (/** @type {Choice} */ choice) => {
    const caption = choice.face ? h('span', { class: 'small' }) : undefined
    const picture = drawn.includes(choice) ? drawing(pictures(choice), caption) : undefined
    return h('li', null, choiceButton(choice.text ?? '', before, choice.id ?? '', () => send({ choice: choice.id }), picture, caption))
  }
  const grid = h('ul', { class: 'pictures' }, drawn.map(button))
  const list = h('ul', { class: 'choices' }, plain.map(button))
  const tools = faces.length > 1 && h('div', { class: 'row' },
    turnButton(grid),
    h('button', { type: 'button', click: () => compare(faces, pictures, into) }, words.picture.compare))
  return { node: h('fieldset', { 'aria-labelledby': titleId, class: 'stack' }, tools, grid, list), list }
}

/** @param {Element} grid */
function turnButton(grid) {
  const button = h('button', { type: 'button', 'aria-pressed': 'false', click: () => {
    button.setAttribute('aria-pressed', String(grid.classList.toggle('turned')))
  } }, words.picture.turn)
  return button
}

/**
 * Two drawings side by side and the one thing that tells them apart.
 * @param {Choice[]} faces @param {Asked['pictures']} pictures @param {Element} into
 */
function compare(faces, pictures, into) {
  const tell = h('p', { role: 'status' })
  const sides = [words.picture.first, words.picture.second].map((name, i) => {
    const id = fresh('face')
    const frame = h('div')
    const select = h('select', { id, change: () => show() },
      faces.map((choice, n) => h('option', { value: n, selected: n === i }, choice.text)))
    return { select, frame, node: h('div', null, h('label', { class: 'fieldname', for: id }, name), select, frame) }
  })
  const show = () => {
    const picked = sides.map(({ select, frame }) => {
      const choice = faces[Number(select.value)]
      frame.replaceChildren(drawing(pictures(choice)))
      return choice
    })
    tell.textContent = difference(picked[0], picked[1])
  }
  show()
  openSheet({ into, heading: words.picture.compare, body: [h('div', { class: 'pair' }, sides.map((side) => side.node)), tell] })
}

/** @param {Choice} a @param {Choice} b */
function difference(a, b) {
  if (a === b) return words.picture.same
  const key = [a, b].map(configuration).sort().join(' ')
  return words.picture.pairs[key] ?? words.picture.look
}

/** CONFIGURATION_14_50 is 14-50, as outlets are named. @param {Choice} choice */
export const configuration = (choice) => (choice.face ?? '').replace('CONFIGURATION_', '').replaceAll('_', '-')
