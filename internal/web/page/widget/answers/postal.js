// A ZIP code. No street is asked.
import { fresh, h } from '../dom.js'
import { words } from '../words.js'

/** @typedef {import('./kinds.js').Asked} Asked */

/** @param {Asked} asked @returns {import('./kinds.js').Part} */
export function postalAnswer({ hintId, errorId, before, typed, send, fail }) {
  const id = fresh('postal')
  const field = h('input', {
    id, type: 'text', inputmode: 'numeric', autocomplete: 'postal-code', maxlength: 10, value: typed ?? before[0] ?? '',
    'aria-describedby': `${hintId} ${errorId}`, enterkeyhint: 'next',
  })
  const submit = () => {
    const digits = field.value.trim().replace(/-\d{4}$/, '')
    if (!/^\d{5}$/.test(digits)) {
      field.setAttribute('aria-invalid', 'true')
      field.focus()
      return fail(words.postal.needed(digits.replaceAll(/\D/g, '').length))
    }
    send({ text: digits })
  }
  return {
    node: h('div', { class: 'stack' }, h('label', { class: 'fieldname', for: id }, words.postal.label), field,
      h('button', { type: 'submit', class: 'go' }, words.question.next)),
    submit,
    field,
    typed: () => field.value,
  }
}
