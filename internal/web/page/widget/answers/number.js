// A number with buttons on either side and, where there are two units, a switch that converts what is shown.
import { fresh, h } from '../dom.js'
import { number } from '../figures.js'
import { factor, read } from '../numbers.js'
import { words } from '../words.js'

/** @typedef {import('./kinds.js').Asked} Asked */

/**
 * @param {Asked} asked @param {string} [name] what the box is called where the unit alone would not say
 * @returns {import('./kinds.js').Part}
 */
export function numberAnswer({ question, hintId, errorId, before, typed, send, fail }, name = '') {
  // The contract counts money in minor units; people type whole ones.
  const scale = question.limits?.[0]?.unit === 'minor units' ? 100 : 1
  const offered = scale > 1 ? (question.limits ?? []).map(inWhole) : question.limits?.length ? question.limits : [{}]
  const id = fresh('number')
  let limits = offered[0]
  const low = () => limits.low ?? 0
  const high = () => limits.high ?? 1e6
  const step = () => limits.step || 1
  // A number without a unit is a year or a count: no comma in it.
  const figure = (/** @type {number} */ value) => (limits.unit ? number(value) : String(value))
  const called = () => name ? [name, said(limits)].filter(Boolean).join(', ') : capital(said(limits))
  const field = h('input', {
    id, type: 'text', inputmode: 'decimal', autocomplete: 'off', value: typed ?? (read(before[0] ?? '') ? before[0] : ''),
    'aria-describedby': `${hintId} ${errorId}`, enterkeyhint: 'next',
  })
  const label = h('label', { class: 'fieldname', for: id }, called())

  const nudge = (/** @type {number} */ steps) => {
    const now = read(field.value)
    const size = step() * steps
    const next = now ? (now.low + now.high) / 2 + size : startingPoint(low(), high(), step())
    field.value = shown(Math.min(high(), Math.max(low(), next)), limits)
    field.removeAttribute('aria-invalid')
  }
  const sides = [-1, 1].map(() => h('span', { class: 'unseen' }))
  const nameSides = () => sides.forEach((each, i) => {
    each.textContent = ` ${(i ? words.number.more : words.number.less)(`${number(step())} ${said(limits)}`.trim())}`
  })
  const side = (/** @type {number} */ way) =>
    h('button', { type: 'button', click: () => nudge(way) }, way < 0 ? '−' : '+', sides[way < 0 ? 0 : 1])
  nameSides()
  field.addEventListener('keydown', (event) => {
    // Left to itself, Enter presses the first button of the form, which may be a choice above this box.
    if (event.key === 'Enter') {
      event.preventDefault()
      return submit()
    }
    const steps = { ArrowUp: 1, ArrowDown: -1, PageUp: 10, PageDown: -10 }[event.key]
    if (!steps) return
    event.preventDefault()
    nudge(steps)
  })

  const submit = () => {
    const reading = read(field.value)
    if (!reading || reading.low < low() || reading.high > high()) {
      field.setAttribute('aria-invalid', 'true')
      field.focus()
      return fail(words.number.needed(said(limits) || words.number.it, figure(low()), figure(high())))
    }
    field.removeAttribute('aria-invalid')
    send({ number: {
      value: Math.round(reading.low * scale * 1e6) / 1e6,
      ...(offered.length > 1 && { unit: limits.unit }),
      ...(reading.high > reading.low && { high: Math.round(reading.high * scale * 1e6) / 1e6 }),
      ...(reading.about && { about: true }),
    } })
  }

  const switchTo = (/** @type {import('../wire').NumberLimits} */ to) => {
    const reading = read(field.value)
    const ratio = factor(to.unit ?? '') / factor(limits.unit ?? '')
    limits = to
    label.textContent = called()
    nameSides()
    if (reading && reading.low === reading.high) field.value = shown(reading.low * ratio, limits)
  }
  const picker = offered.length > 1 && h('fieldset', { class: 'units' }, h('legend', { class: 'unseen' }, words.number.unit),
    offered.map((each) => h('label', { class: 'tick' },
      h('input', { type: 'radio', name: `${id}-unit`, value: each.unit, checked: each === limits, change: () => switchTo(each) }), said(each))))

  return {
    node: h('div', { class: 'stack' }, label, !name && h('p', { class: 'hint' }, words.number.about), h('div', { class: 'stepper' }, side(-1), field, side(1)), picker,
      h('button', { type: 'submit', class: 'go' }, words.question.next)),
    submit,
    field,
    typed: () => field.value,
  }
}

/** Limits in minor units, in whole ones. @param {import('../wire').NumberLimits} limits @returns {import('../wire').NumberLimits} */
const inWhole = (limits) => ({
  ...limits, unit: words.number.money, unit_text: words.number.money, low: (limits.low ?? 0) / 100, high: (limits.high ?? 0) / 100, step: (limits.step || 100) / 100,
})

/** The unit as the service words it. @param {import('../wire').NumberLimits} limits */
const said = (limits) => limits.unit_text || limits.unit || ''

/** @param {number} value @param {import('../wire').NumberLimits} limits */
const shown = (value, limits) => String(Number(value.toFixed((limits.step || 1) < 1 ? 1 : 0)))

/** Where the first press of a step lands: a round figure low in the range, not its edge. @param {number} low @param {number} high @param {number} step */
const startingPoint = (low, high, step) => Math.min(high, Math.max(low, Math.round((low + (high - low) / 10) / step) * step))

/** @param {string} text */
const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1)
