// Cautions: the level as a word and a shape of its own, what to do now first, then what was seen and why.
import { h, unseen } from './dom.js'
import { shape } from './marks.js'
import { words } from './words.js'

/** @typedef {import('./wire').Caution} Caution */

/** @type {Record<string, import('./marks.js').Level>} */
const levels = {
  CAUTION_GRAVITY_HALTS: 'stop', CAUTION_GRAVITY_ADDS_LINES: 'put_right', CAUTION_GRAVITY_SAID: 'take_care', CAUTION_GRAVITY_TO_BE_CHECKED: 'to_check',
}

/** @param {Caution} caution */
export const levelOf = (caution) => levels[caution.gravity ?? ''] ?? 'to_check'

/** @param {Caution} caution the word of its level */
const levelWord = (caution) => caution.level || words.levels[levelOf(caution)]

/**
 * One caution. A stop speaks up once, when it is new to the page; after that it is plain text.
 * @param {Caution} caution @param {{loud?: boolean, heading?: 'h3' | 'h4'}} [how]
 */
export function cautionBox(caution, { loud = false, heading = 'h3' } = {}) {
  const level = levelOf(caution)
  return h(
    'div',
    { class: `caution ${level}`, role: level === 'stop' && loud ? 'alert' : 'note', 'data-caution': caution.code },
    h(heading, null, shape(level), h('span', null, [levelWord(caution), caution.title].filter(Boolean).join(': '))),
    caution.emergency && h('p', null, h('strong', null, caution.emergency)),
    h('p', null, h('strong', null, caution.do_now)),
    caution.seen && h('p', null, unseen(`${words.caution.seen}: `), caution.seen),
    caution.risk && h('p', { class: 'hint' }, `${words.caution.why}: ${caution.risk}`),
    caution.ask && h('p', { class: 'hint' }, `${words.caution.ask}: ${caution.ask}`),
    caution.who_to_call && h('p', { class: 'hint' }, `${words.caution.call}: ${caution.who_to_call}`),
    h('p', { class: 'small' }, [caution.code, caution.section].filter(Boolean).join(' · ')),
  )
}

/** A single line for a card: the level's word and shape, then what to do. @param {Caution} caution */
export function cautionLine(caution) {
  const level = levelOf(caution)
  return h(
    'div',
    { class: `caution ${level}`, role: 'note' },
    h('p', null, shape(level), ' ', h('strong', null, levelWord(caution)), ' ', caution.do_now),
  )
}
