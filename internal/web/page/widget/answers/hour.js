// A time of day: typed as people write it, moved by half hours, with morning or evening picked beside it.
import { fresh, h, unseen } from '../dom.js'
import { clock } from '../figures.js'
import { readHour } from '../numbers.js'
import { words } from '../words.js'

/** @typedef {import('./kinds.js').Asked} Asked */

/** @param {Asked} asked @returns {import('./kinds.js').Part} */
export function hourAnswer({ question, hintId, errorId, before, typed, send, fail }) {
  const id = fresh('hour')
  const step = question.limits?.[0]?.step || 0.5
  const start = before[0] ? readHour(before[0], 'am') ?? undefined : undefined
  const halves = /** @type {const} */ (['am', 'pm'])
  const picks = halves.map((half) => h('input', { type: 'radio', name: id, value: half, checked: half === (start !== undefined && start < 12 ? 'am' : 'pm') }))
  const half = () => (picks[0].checked ? 'am' : 'pm')
  const field = h('input', { id, type: 'text', autocomplete: 'off', value: typed ?? '', 'aria-describedby': `${hintId} ${errorId}`, enterkeyhint: 'next' })
  const show = (/** @type {number} */ hour) => {
    field.value = clock(hour).replace(/\s*[AP]M$/i, '')
    picks[hour < 12 ? 0 : 1].checked = true
  }
  if (start !== undefined && typed === undefined) show(start)
  const nudge = (/** @type {number} */ way) => {
    const now = readHour(field.value, half())
    show(now === null ? (half() === 'am' ? 7 : 18) : (now + way * step + 24) % 24)
    field.removeAttribute('aria-invalid')
  }
  field.addEventListener('keydown', (event) => {
    const steps = { ArrowUp: 1, ArrowDown: -1, PageUp: 10, PageDown: -10 }[event.key]
    if (!steps) return
    event.preventDefault()
    nudge(steps)
  })
  const submit = () => {
    const hour = readHour(field.value, half())
    if (hour === null) {
      field.setAttribute('aria-invalid', 'true')
      field.focus()
      return fail(words.hour.needed)
    }
    send({ hour })
  }
  const side = (/** @type {number} */ way) =>
    h('button', { type: 'button', click: () => nudge(way) }, way < 0 ? '−' : '+', unseen(` ${way < 0 ? words.hour.less : words.hour.more}`))
  return {
    node: h('div', { class: 'stack' },
      h('label', { class: 'fieldname', for: id }, words.hour.label),
      h('div', { class: 'stepper' }, side(-1), field, side(1)),
      h('fieldset', { class: 'units' }, h('legend', { class: 'unseen' }, words.hour.half),
        picks.map((pick, i) => h('label', { class: 'tick' }, pick, words.hour[halves[i]]))),
      h('button', { type: 'submit', class: 'go' }, words.question.next)),
    submit,
    field,
    typed: () => field.value,
  }
}
