// One of a few: each choice is a button that sends itself, since one tap moves on. Radios that submit would surprise (SC 3.2.2).
import { h } from '../dom.js'
import { mark } from '../marks.js'
import { words } from '../words.js'
import { numberAnswer } from './number.js'

/** @typedef {import('./kinds.js').Asked} Asked */
/** @typedef {import('./kinds.js').Part} Part */
/** @typedef {import('../wire').NumberLimits} NumberLimits */

/**
 * A list of buttons; the one chosen before says so. A choice such as "Another number" opens a number box below.
 * @param {Asked} asked @returns {Part}
 */
export function choiceAnswer(asked) {
  const { question, titleId, before, send } = asked
  const box = h('div')
  /** @type {Part | undefined} */
  let number
  const open = (/** @type {NumberLimits[]} */ limits, /** @type {string} */ name) => {
    number = numberAnswer({ ...asked, before: [], question: { ...question, limits } }, name)
    box.replaceChildren(number.node)
    return number.field
  }
  const list = h('ul', { class: 'choices' }, (question.choices ?? []).map((choice) => h('li', null,
    choiceButton(choice.text ?? '', before, choice.id ?? '', () =>
      (choice.enter ? open([choice.enter], choice.text ?? '')?.focus() : send({ choice: choice.id }))))))
  if (question.limits?.length) open(question.limits, words.number.or)
  return {
    node: h('div', { class: 'stack' }, h('div', { role: 'group', 'aria-labelledby': titleId }, list), box),
    list,
    submit: () => number?.submit?.(),
    typed: () => number?.typed?.() ?? '',
    get field() { return number?.field },
  }
}

/**
 * One choice as a button, with a mark when it is the answer now.
 * @param {string} text @param {string[]} before @param {string} id @param {() => void} run @param {Node} [picture] @param {Node} [caption]
 */
export function choiceButton(text, before, id, run, picture, caption) {
  const chosen = before.includes(id) || before.includes(text)
  return h(
    'button',
    { type: 'submit', 'aria-current': chosen && 'true', 'data-choice': id, click: (/** @type {Event} */ event) => { event.preventDefault(); run() } },
    picture,
    h('span', null, text),
    caption,
    chosen && h('span', { class: 'before' }, mark('told'), words.turn.now),
  )
}
