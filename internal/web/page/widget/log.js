// What was said so far. Articles are added and altered in place, so that a screen reader hears only what is new.
import { h, unseen } from './dom.js'
import { mark } from './marks.js'
import { words } from './words.js'

/** @typedef {import('./wire').LogEntry} LogEntry */

/** How many turns stay in sight; the earlier ones open on request. */
const FEW = 4

/** The log of past turns. */
export class Log {
  /** @param {(question: string) => void} change */
  constructor(change) {
    this.change = change
    /** @type {Map<string, {state: string, node: HTMLElement}>} */
    this.shown = new Map()
    this.all = false
    this.more = h('button', { type: 'button', class: 'quiet earlier', click: () => {
      this.all = true
      this.fold()
      this.node.focus()
    } })
    this.title = h('h2', { id: 'log-title', class: 'unseen' }, words.turn.log)
    this.node = h('div', { role: 'log', tabindex: 0, 'aria-labelledby': 'log-title', class: 'log' })
  }

  /** @param {LogEntry[]} wanted the turns, oldest first */
  show(wanted) {
    const ids = new Set(wanted.map((entry) => entry.id ?? ''))
    for (const [id, { node }] of this.shown) {
      if (ids.has(id)) continue
      node.remove()
      this.shown.delete(id)
    }
    wanted.forEach((entry, place) => {
      const id = entry.id ?? ''
      const state = `${entry.state} ${entry.answer_text}`
      const old = this.shown.get(id)
      if (old?.state === state) return
      const node = this.article(entry)
      if (old) old.node.replaceWith(node)
      else this.node.insertBefore(node, this.node.children[place] ?? null)
      this.shown.set(id, { state, node })
    })
    this.node.hidden = this.title.hidden = wanted.length === 0
    this.fold()
  }

  /** Hides all but the last few turns, unless all were asked for. */
  fold() {
    const turns = [...this.node.children]
    const early = this.all ? 0 : Math.max(0, turns.length - FEW)
    turns.forEach((turn, i) => { if (turn instanceof HTMLElement) turn.hidden = i < early })
    this.more.hidden = early === 0
    this.more.textContent = words.turn.earlier(early)
  }

  /** @param {LogEntry} entry */
  article(entry) {
    const { question = '', question_text: text = '', answer_text: said = '', state } = entry
    const change = h('button', { type: 'button', class: 'quiet', click: () => this.change(question) }, words.turn.change, unseen(`: ${text}`))
    const aside = state === 'ENTRY_STATE_SET_ASIDE'
    return h('article', { class: `turn${aside ? ' aside' : ''}`, 'data-question': question },
      h('h3', null, text || words.turn.also),
      h('p', { class: 'said' },
        state === 'ENTRY_STATE_UNSURE' && [mark('assumed'), ' '],
        aside ? h('s', null, said) : said || (state === 'ENTRY_STATE_SKIPPED' ? words.turn.skipped : words.turn.unsure)),
      aside && h('p', { class: 'hint' }, mark('set_aside'), ' ', words.turn.aside),
      question && change)
  }
}
