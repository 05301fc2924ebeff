// Several at once: checkboxes and one button. "None of these" clears the rest, and any of the rest clears it.
import { fresh, h } from '../dom.js'
import { words } from '../words.js'

/** @typedef {import('./kinds.js').Asked} Asked */

/** Choices that mean the empty set wherever they stand in the tree. */
const EMPTY = new Set(['none', 'clean'])

/** @param {Asked} asked @returns {import('./kinds.js').Part} */
export function severalAnswer({ question, titleId, before, send }) {
  const boxes = (question.choices ?? []).map((choice) =>
    h('input', { type: 'checkbox', value: choice.id, id: fresh('tick'), checked: before.includes(choice.id ?? '') || before.includes(choice.text ?? '') }))
  const rows = (question.choices ?? []).map((choice, i) =>
    h('li', null, h('label', { class: 'tick', for: boxes[i].id }, boxes[i], h('span', null, choice.text))))
  for (const box of boxes) {
    box.addEventListener('change', () => {
      if (!box.checked) return
      for (const other of boxes) {
        if (other !== box && (EMPTY.has(box.value) || EMPTY.has(other.value))) other.checked = false
      }
    })
  }
  const go = () => send({ choices: { ids: boxes.filter((box) => box.checked).map((box) => box.value) } })
  return {
    node: h('fieldset', { 'aria-labelledby': titleId, class: 'stack' },
      h('p', { class: 'hint' }, words.question.several),
      h('ul', { class: 'choices' }, rows),
      h('button', { type: 'submit', class: 'go' }, words.question.next)),
    submit: go,
  }
}
