// The halt: what to do now, before anything else. No price stands beside a danger.
import { cautionBox, levelOf } from './cautions.js'
import { h } from './dom.js'
import { shape } from './marks.js'
import { words } from './words.js'

/** @typedef {import('./wire').Session} Session */

/**
 * @param {Session} session
 * @param {{loud: boolean, see: () => void, mistaken: () => void, change: (question: string) => void, goOn?: () => void, startOver: () => void}} acts
 */
export function haltView(session, { loud, see, mistaken, change, goOn, startOver }) {
  const cautions = session.cautions ?? []
  const stops = cautions.filter((caution) => levelOf(caution) === 'stop')
  const rest = cautions.filter((caution) => levelOf(caution) !== 'stop')
  return h('div', { class: 'question halted new' },
    h('hr', { class: 'horizon', 'aria-hidden': 'true' }),
    h('h2', { id: 'question', tabindex: -1 }, words.halt.heading),
    h('p', { class: 'headline' }, session.halt?.text),
    h('div', { class: 'stack' }, stops.map((caution) => cautionBox(caution, { loud }))),
    contradictions(session, change),
    rest.length > 0 && h('details', null, h('summary', null, words.result.allCautions(rest.length)), h('div', { class: 'stack' }, rest.map((caution) => cautionBox(caution)))),
    h('p', null, words.licensed),
    h('div', { class: 'row' },
      h('button', { type: 'button', class: 'go', 'data-act': 'see', click: see }, words.halt.see),
      goOn && h('button', { type: 'button', 'data-act': 'go-on', click: goOn }, words.halt.aside),
      h('button', { type: 'button', 'data-act': 'mistaken', click: mistaken }, words.halt.mistaken),
      h('button', { type: 'button', 'data-act': 'start-over', click: startOver }, words.start.again)))
}

/**
 * Facts that do not fit together, said as they stand, with the way to change each.
 * @param {Session} session @param {(question: string) => void} change
 */
export function contradictions(session, change) {
  const all = session.contradictions ?? []
  return all.length > 0 && h('div', { class: 'stack' }, all.map((each) => {
    const level = each.halts ? 'stop' : 'take_care'
    const chips = (session.chips ?? []).filter((chip) => chip.question && each.paths?.includes(chip.path ?? ''))
    return h('div', { class: `caution ${level}`, role: 'note', 'data-contradiction': each.code },
      h('h3', null, shape(level), words.levels[level]),
      h('p', null, each.text),
      h('div', { class: 'row' }, chips.map(({ label, value, question = '' }) =>
        h('button', { type: 'button', click: () => change(question) }, `${words.turn.change}: ${[label, value].filter(Boolean).join(', ')}`))))
  }))
}
