// What is known, as chips: border, mark and word tell the state, and each goes to its question.
import { h, unseen } from './dom.js'
import { mark } from './marks.js'
import { words } from './words.js'

/** @typedef {import('./wire').Chip} Chip */

/** @type {Record<string, 'told' | 'looked_up' | 'assumed'>} */
const states = {
  CHIP_STATE_TOLD: 'told', CHIP_STATE_DERIVED: 'looked_up', CHIP_STATE_UNSURE: 'assumed', CHIP_STATE_NARROWED: 'assumed',
}

/** How many are shown before the rest is folded on a phone. */
const FEW = 6

/** The chips and their heading. */
export class Chips {
  /** @param {(question: string) => void} change */
  constructor(change) {
    this.change = change
    this.all = false
    this.box = h('div')
    this.node = h('section', { class: 'known', 'aria-labelledby': 'known-title' }, h('h2', { id: 'known-title' }, words.chips.heading), this.box)
  }

  /** @param {Chip[]} chips newest last */
  show(chips) {
    const said = chips.filter((chip) => chip.state !== 'CHIP_STATE_DERIVED')
    const found = chips.filter((chip) => chip.state === 'CHIP_STATE_DERIVED')
    const open = this.box.querySelector('details')?.open
    const folded = this.all ? 0 : Math.max(0, said.length - FEW)
    this.node.hidden = said.length === 0
    this.box.replaceChildren(
      h('ul', { class: 'chips', 'aria-label': words.chips.heading },
        said.map((chip, i) => h('li', { class: i < folded ? 'folded' : false }, this.chip(chip))),
        said.length > FEW && h('li', { class: 'fold' }, h('button', { type: 'button', 'aria-expanded': String(this.all), click: () => {
          this.all = !this.all
          this.show(chips)
          const again = this.box.querySelector('.fold button')
          if (again instanceof HTMLElement) again.focus()
        } }, this.all ? words.chips.fewer : words.chips.more(said.length - FEW)))),
      found.length > 0 ? h('details', { open: Boolean(open) }, h('summary', null, words.chips.found(found.length)),
        h('ul', { class: 'chips', 'aria-label': words.chips.looked_up }, found.map((chip) => h('li', null, this.chip(chip))))) : '')
  }

  /** @param {Chip} chip */
  chip({ label, value, state, question, source }) {
    const kind = states[state ?? ''] ?? 'told'
    const text = h('span', null, [label, value].filter(Boolean).join(': '),
      source && h('span', { class: 'small source' }, ` ${source}`), unseen(`, ${words.chips[kind]}${question ? `. ${words.turn.change}` : ''}`))
    if (!question) return h('span', { class: `chip ${kind}` }, mark(kind), text)
    return h('button', { type: 'button', class: `chip ${kind}`, 'data-question': question, click: () => this.change(question) }, mark(kind), text)
  }
}
