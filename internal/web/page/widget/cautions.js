// Cautions: the level as a word and a shape of its own, what to do now first, then what was seen and why.
import { h, unseen } from './dom.js'
import { shape } from './marks.js'
import { words } from './words.js'

/** @typedef {import('./wire').Caution} Caution */

/** @param {Caution} caution @returns {import('./marks.js').Level} */
export function levelOf(caution) {
  if (caution.certainty === 'CAUTION_CERTAINTY_TO_BE_CHECKED') return 'to_check'
  if (caution.effect === 'CAUTION_EFFECT_HALTS') return 'stop'
  return caution.effect === 'CAUTION_EFFECT_ADDS' ? 'put_right' : 'take_care'
}

/**
 * One caution. A stop speaks up once, when it is new to the page; after that it is plain text.
 * @param {Caution} caution @param {{loud?: boolean, heading?: 'h3' | 'h4'}} [how]
 */
export function cautionBox(caution, { loud = false, heading = 'h3' } = {}) {
  const level = levelOf(caution)
  return h(
    'div',
    { class: `caution ${level}`, role: level === 'stop' && loud ? 'alert' : 'note' },
    h(heading, null, shape(level), words.levels[level]),
    h('p', null, h('strong', null, caution.do_now)),
    caution.seen && h('p', null, unseen(`${words.caution.seen}: `), caution.seen),
    caution.risk && h('p', { class: 'hint' }, `${words.caution.why}: ${caution.risk}`),
    caution.once_put_right && h('p', { class: 'hint' }, caution.once_put_right),
    h('p', { class: 'small' }, [caution.code, caution.section].filter(Boolean).join(' · ')),
  )
}

/** A single line for a card: the level's word and shape, then what to do. @param {Caution} caution */
export function cautionLine(caution) {
  const level = levelOf(caution)
  return h(
    'div',
    { class: `caution ${level}`, role: 'note' },
    h('p', null, shape(level), ' ', h('strong', null, words.levels[level]), ' ', caution.do_now),
  )
}
