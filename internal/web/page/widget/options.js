// Option cards: what each way costs and does, why it is shown, its first caution, and the circuit an electrician would build.
import { facts } from './bill.js'
import { cautionLine } from './cautions.js'
import { fresh, h } from './dom.js'
import { exact, hours, number, round } from './figures.js'
import { words } from './words.js'

/** @typedef {import('./wire').Option} Option */
/** @typedef {import('./wire').PriceRange} PriceRange */
/** @typedef {import('./wire').CircuitDesign} CircuitDesign */

/** @param {Option} option "Best fit", or several names when one option is several */
export const roleNames = (option) => (option.roles ?? []).map((role) => words.roles[role] ?? '').filter(Boolean).join(' · ')

/**
 * Cards side by side, one of them chosen; the price lines below belong to the chosen one.
 * @param {Option[]} options @param {string} chosen @param {(id: string) => void} choose
 */
export function optionCards(options, chosen, choose) {
  const group = fresh('option')
  return h('div', { class: 'cards', role: 'radiogroup', 'aria-label': words.result.options },
    options.map((option) => card(option, group, option.id === chosen, () => choose(option.id ?? ''))))
}

/** @param {Option} option @param {string} group @param {boolean} chosen @param {() => void} choose */
function card(option, group, chosen, choose) {
  const id = fresh('card')
  return h('section', { class: `option${chosen ? ' chosen' : ''}`, 'aria-labelledby': id, 'data-option': option.id },
    h('p', { class: 'kind' }, roleNames(option)),
    h('h3', { id }, option.title?.text),
    h('p', { class: 'money' }, rangeText(option.price)),
    threeFigures(option.price),
    h('p', null, option.why?.text),
    does(option),
    option.cautions?.[0] && cautionLine(option.cautions[0]),
    option.circuit ? circuitBlock(option.circuit) : h('p', { class: 'hint licensed' }, words.licensed),
    h('label', { class: 'tick' },
      h('input', { type: 'radio', name: group, value: option.id, checked: chosen, change: choose, 'aria-describedby': id }),
      h('span', null, words.result.choose)))
}

/** A range as the service says it, or written out from its ends. @param {PriceRange | undefined} range */
export const rangeText = (range) =>
  range?.text || [range?.low, range?.high].filter(Boolean).map((end) => round(end)).join(` ${words.price.to} `)

/** @param {PriceRange | undefined} price */
function threeFigures(price) {
  if (!price?.likely) return null
  const { low, likely, high } = words.result
  return facts([[low, exact(price.low)], [likely, exact(price.likely)], [high, exact(price.high)]])
}

/** What the way does for this driver. @param {Option} option */
function does({ charging, verdict, setting_amps: amps, volts }) {
  if (!charging) return null
  return facts([
    [words.does.setting, amps && `${number(amps)} A, ${number(volts ?? 0, 0)} V`],
    [words.does.usual, charging.usual_day_hours && hours(charging.usual_day_hours)],
    [words.does.hard, charging.hard_day_hours && hours(charging.hard_day_hours)],
    [words.does.window, charging.window_hours && hours(charging.window_hours)],
    [words.does.miles, charging.miles_per_hour && number(charging.miles_per_hour, 0)],
    [words.result.load, words.verdicts[verdict ?? '']],
  ])
}

/** The circuit, with who builds it said right beside. @param {CircuitDesign} circuit */
function circuitBlock(circuit) {
  const wire = circuit.conductors
  return h('div', { class: 'circuit' },
    h('h4', null, words.result.circuit),
    facts([
      [words.circuit.breaker, circuit.breaker_amps && [
        `${number(circuit.breaker_amps)} A`, circuit.breaker_poles && words.circuit.poles(circuit.breaker_poles),
        circuit.breaker_gfci && words.circuit.gfci].filter(Boolean).join(', ')],
      [words.circuit.wire, wire?.size && [`${wire.hots ?? 2} × ${wire.size}`, words.materials[wire.material ?? '']].filter(Boolean).join(' ')],
      [words.circuit.neutral, wire?.neutral_size],
      [words.circuit.ground, wire?.grounding_size],
      [words.circuit.method, (circuit.runs ?? []).map((run) =>
        [words.methods[run.method ?? ''] ?? run.method, run.trade_size && `${run.trade_size} in`, run.feet && `${number(run.feet, 1)} ft`].filter(Boolean).join(' ')).join('; ')],
      [words.circuit.end, [words.terminations[circuit.termination ?? ''], receptacleName(circuit.receptacle)].filter(Boolean).join(', ')],
      [words.circuit.enclosure, circuit.enclosure],
      [words.circuit.drop, circuit.drop_percent && `${number(circuit.drop_percent, 1)} %`],
    ]),
    (circuit.objections ?? []).map((objection) => h('p', null, objection.what?.text, ' ', objection.what_would_do?.text)),
    h('p', { class: 'licensed' }, words.licensed))
}

/** CONFIGURATION_14_50 is printed 14-50. @param {string | undefined} name */
const receptacleName = (name) => name?.replace(/^.*CONFIGURATION_/, '').replaceAll('_', '-')
