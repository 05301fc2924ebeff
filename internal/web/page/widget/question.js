// The open question: its words, the part that answers it, and the help that stands on every turn.
import { partFor } from './answers/kinds.js'
import { h, unseen } from './dom.js'
import { shape } from './marks.js'
import { numbered, openSheet } from './sheet.js'
import { words } from './words.js'

/** @typedef {import('./answers/kinds.js').Given} Given */
/**
 * @typedef {object} Acts
 * @property {(given: Given) => void} answer @property {(text: string) => void} fail
 * @property {() => void} changeAny @property {() => void} alarm @property {() => void} guessBlock @property {() => void} keep
 * @property {() => Promise<import('./answers/kinds.js').Car[]>} vehicles
 * @property {(choice: import('./wire').Choice) => string} pictures
 */

/** The open question as a form. */
export class OpenQuestion {
  /**
   * @param {import('./wire').Question} question
   * @param {{before: string[], leadIn?: string, progress?: string, changing: boolean, canChange: boolean, typed?: string, into: Element}} how
   * @param {Acts} acts
   */
  constructor(question, how, acts) {
    this.question = question
    const unsure = () => acts.answer({ unsure: {} })
    this.part = partFor({
      question, before: how.before, typed: how.typed, into: how.into, titleId: 'question', hintId: 'question-hint', errorId: 'question-error',
      send: acts.answer, fail: acts.fail, unsure, vehicles: acts.vehicles, pictures: acts.pictures,
    })
    this.title = h('h2', { id: 'question', tabindex: -1 }, question.text)
    this.error = h('p', { id: 'question-error', class: 'error', hidden: true })
    this.why = h('p', { id: 'question-why', class: 'why', hidden: true }, question.why)
    const unsureButton = h('button', { type: 'button', 'data-act': 'unsure', click: unsure }, words.question.unsure)
    const joined = this.part.list && this.part.list.children.length > 0
    if (joined) this.part.list?.append(h('li', { class: 'unsure' }, unsureButton))
    this.node = h('form', {
      class: 'question new', novalidate: true, 'data-question': question.id,
      submit: (/** @type {Event} */ event) => { event.preventDefault(); this.part.submit?.() },
    },
    h('hr', { class: 'horizon', 'aria-hidden': 'true' }),
    how.leadIn && h('div', { class: 'block lead-in' },
      h('p', null, how.leadIn),
      question.block && h('div', { class: 'row' }, h('button', { type: 'button', 'data-act': 'guess', click: acts.guessBlock }, words.question.guess))),
    this.title,
    h('p', { id: 'question-hint', class: 'hint' }, how.progress),
    this.error,
    this.part.node,
    !joined && h('div', { class: 'unsure' }, unsureButton),
    this.helps(how, acts, unsure),
    this.why,
    h('button', { type: 'button', class: 'alarm', 'data-act': 'alarm', click: acts.alarm }, shape('stop'), words.question.alarm),
    how.changing && h('div', { class: 'row' }, h('button', { type: 'button', 'data-act': 'keep', click: acts.keep }, words.turn.keep)))
  }

  /** @param {{canChange: boolean, into: Element}} how @param {Acts} acts @param {() => void} unsure */
  helps({ canChange, into }, acts, unsure) {
    const { question } = this
    const why = h('button', { type: 'button', 'aria-expanded': 'false', 'aria-controls': 'question-why', 'data-act': 'why', click: () => {
      this.why.hidden = !this.why.hidden
      why.setAttribute('aria-expanded', String(!this.why.hidden))
    } }, words.question.why)
    return h('div', { class: 'helps' },
      h('button', { type: 'button', 'data-act': 'find', click: () => openSheet({
        into, heading: words.question.find, body: [h('p', null, question.text), numbered(question.find ?? [])], close: words.sheet.found, closeFirst: true,
        actions: [{ text: words.sheet.guess, run: unsure }],
      }) }, words.question.find),
      why,
      h('button', { type: 'button', 'data-act': 'change', 'aria-disabled': canChange ? false : 'true', click: () => canChange && acts.changeAny() }, words.question.change),
      h('button', { type: 'button', 'data-act': 'skip', click: () => acts.answer({ skip: {} }) }, words.question.skip))
  }

  /** @param {string} text what to give instead; empty takes it away */
  fail(text) {
    this.error.hidden = !text
    this.error.replaceChildren(...(text ? [unseen(words.question.fix), text] : []))
    if (text && this.part.field) this.part.field.setAttribute('aria-invalid', 'true')
  }

  /** Buttons keep their words while an answer is on its way. @param {boolean} busy */
  sending(busy) {
    for (const button of this.node.querySelectorAll('button[type="submit"], .unsure button, [data-act="skip"]')) {
      if (busy) button.setAttribute('aria-disabled', 'true')
      else button.removeAttribute('aria-disabled')
    }
  }
}
