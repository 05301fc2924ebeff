// <daybreak-intake>: the conversation as an element. It draws what the conversation says and moves the focus; no more.
import { Chips } from './chips.js'
import { cautionBox, levelOf } from './cautions.js'
import { vehicles } from './catalogue.js'
import { Client } from './client.js'
import { Conversation, SIGNS, turnsOf } from './conversation.js'
import { configuration } from './answers/picture.js'
import { h } from './dom.js'
import { contradictions, haltView } from './halt.js'
import { Log } from './log.js'
import { Memory } from './memory.js'
import { Price } from './price.js'
import { OpenQuestion } from './question.js'
import { resultView } from './result.js'
import { openSheet } from './sheet.js'
import { sheet, styled } from './style.js'
import { Turns } from './turns.js'
import { words } from './words.js'

/** The quote stands half a turn after the last answer in the browser's history. */
const QUOTE = 0.5

/**
 * Attributes: `service` address of the service, the page's own by default · `shop` keeps two shops' conversations apart ·
 * `shop-name` shown in the title row · `browser-key` · `theme` light or dark, else the reader's own · `turns-in-history` lets
 * the back button go to the question before.
 */
export class DaybreakIntake extends HTMLElement {
  /** @type {OpenQuestion | undefined} */ asked
  /** @type {Set<string | undefined> | undefined} codes of the cautions already said */ heard
  stopped = false

  connectedCallback() {
    if (this.shadowRoot) return
    const root = this.attachShadow({ mode: 'open' })
    root.adoptedStyleSheets = [sheet]
    const base = (this.getAttribute('service') ?? '').replace(/\/$/, '')
    this.talk = new Conversation(new Client(base, this.getAttribute('browser-key') ?? ''), new Memory(this.getAttribute('shop') ?? 'demo'), (why) => this.draw(why))
    this.pictures = (/** @type {import('./wire').Choice} */ choice) => {
      const name = choice.face ? configuration(choice) : choice.picture
      return name ? `${base}/drawings/${encodeURIComponent(name)}.svg` : ''
    }
    const change = (/** @type {string} */ question) => void this.talk?.change(question)
    this.log = new Log(change)
    this.chips = new Chips(change)
    this.price = new Price(() => { if (!this.talk?.busy) void this.talk?.see() })
    this.notice = h('div', { class: 'notice', role: 'status' })
    this.past = h('div', null, this.log.title, this.log.more, this.log.node)
    this.open = h('div', { class: 'open' })
    this.columns = h('div', { class: 'columns' },
      h('div', { class: 'talk' }, this.past, this.open), this.chips.node, this.price.node, this.price.lead)
    this.frame = h('section', { class: 'page', role: 'region', 'aria-label': words.title },
      h('div', { class: 'top' }, h('slot', { name: 'title' }, h('p', { class: 'name' }, words.title)), h('p', { class: 'hint' }, this.getAttribute('shop-name'))),
      this.notice, this.columns,
      h('div', { class: 'foot' }, h('p', { class: 'hint' }, words.demo), h('p', { class: 'hint' }, words.licensed)))
    if (this.hasAttribute('turns-in-history')) this.turns = new Turns((question) => this.revisit(question))
    styled.then(async () => {
      root.append(this.frame ?? '')
      this.draw('moved')
      await this.talk?.resume()
    })
  }

  /** Draws what is different. The open part is drawn again only when the conversation has moved. @param {'answered' | 'moved' | 'said' | 'band'} why */
  draw(why) {
    const { talk, log, chips, price } = this
    if (!talk || !log || !chips || !price) return
    const session = talk.session
    const turns = turnsOf(session)
    if (why === 'answered' || why === 'moved') {
      log.show(turns)
      chips.show(session?.chips ?? [])
      this.drawOpen()
      if (why === 'moved') this.turns?.found(turns.length)
      else {
        this.turns?.mark(talk.quote ? turns.length + QUOTE : turns.length)
        this.focusTitle()
      }
    }
    price.node.hidden = !session
    price.show(talk.band, { revision: session?.revision, halted: session?.halted, unpriced: talk.unpriced }, turns.length > 0)
    this.asked?.fail(talk.error)
    this.asked?.sending(talk.busy)
    this.frame?.setAttribute('aria-busy', String(talk.busy))
    this.drawNotice()
  }

  drawOpen() {
    const talk = /** @type {Conversation} */ (this.talk)
    const { session, quote, question } = talk
    this.asked = undefined
    this.columns?.classList.toggle('whole', Boolean(quote) || !session)
    if (this.past) this.past.hidden = Boolean(quote)
    if (quote) return this.place(this.result(quote))
    // A conversation this tab holds but has not read yet is no reason to offer a new one.
    if (!session) return this.place(talk.memory.held.name ? h('div') : startView(() => void talk.begin()))
    if (session.halted && !talk.changing && !talk.pastHalt) return this.place(this.halt(session))
    if (!question) {
      this.place(h('div'))
      return void talk.see()
    }
    this.place(...this.questionParts(session, question))
  }

  /** @param {import('./wire').Session} session @param {import('./wire').Question} question */
  questionParts(session, question) {
    const talk = /** @type {Conversation} */ (this.talk)
    const turn = session.turn ?? {}
    this.asked = new OpenQuestion(question, {
      before: talk.before, changing: Boolean(talk.changing), canChange: turnsOf(session).length > 0, into: this.frame ?? this,
      leadIn: talk.changing ? undefined : turn.lead_in?.text,
      progress: talk.changing ? undefined : words.question.progress(turn.answered ?? 0, turn.left ?? 0),
    }, {
      answer: (given) => void talk.answer(given), fail: (text) => talk.fail(text), keep: () => talk.keep(), guessBlock: () => void talk.guessBlock(),
      changeAny: () => this.chooseChange(), alarm: () => void this.alarm(), vehicles: () => vehicles(talk.client), pictures: (choice) => this.pictures?.(choice) ?? '',
    })
    return [this.said(session), this.asked.node]
  }

  /** What the answers so far have raised, above the question. @param {import('./wire').Session} session */
  said(session) {
    const cautions = session.cautions ?? []
    const count = cautions.length
    this.heard ??= new Set(cautions.map((caution) => caution.code))
    const fresh = cautions.filter((caution) => !this.heard?.has(caution.code))
    this.heard = new Set(cautions.map((caution) => caution.code))
    const rest = cautions.filter((caution) => !fresh.includes(caution))
    return h('div', { class: 'stack said-now' },
      contradictions(session, (question) => void this.talk?.change(question)),
      fresh.map((caution) => cautionBox(caution, { loud: levelOf(caution) === 'stop' })),
      rest.length > 0 && h('details', null, h('summary', null, words.result.allCautions(count - fresh.length)), h('div', { class: 'stack' }, rest.map((caution) => cautionBox(caution)))))
  }

  /** @param {import('./wire').Session} session */
  halt(session) {
    const talk = /** @type {Conversation} */ (this.talk)
    const loud = !this.stopped
    this.stopped = true
    return haltView(session, {
      loud, see: () => void talk.see(), mistaken: () => this.chooseChange(), change: (question) => void talk.change(question), startOver: () => void talk.startOver(), goOn: session.turn ? () => talk.keep() : undefined,
    })
  }

  /** @param {import('./wire').Quote} quote */
  result(quote) {
    const talk = /** @type {Conversation} */ (this.talk)
    return resultView(quote, {
      goOn: talk.session?.turn || talk.session?.halted ? () => talk.goOn() : undefined, startOver: () => void talk.startOver(),
      ask: (question) => void talk.change(question), chosen: talk.memory.held.chosen, onChoose: (chosen) => talk.memory.keep({ chosen }),
    })
  }

  /** @param {...Node} nodes */
  place(...nodes) {
    this.open?.replaceChildren(...nodes)
  }

  focusTitle() {
    const title = this.open?.querySelector('h2')
    if (title instanceof HTMLElement) title.focus()
  }

  drawNotice() {
    const { notice: box, talk } = this
    const notice = talk?.notice
    const key = notice ? [notice.text, notice.theirs, notice.acts?.length].join('|') : ''
    if (!box || box.dataset['key'] === key) return
    box.dataset['key'] = key
    box.replaceChildren(...(notice ? [
      h('p', null, notice.text),
      ...(notice.theirs ? [h('p', null, `${words.net.theirs}: `, h('strong', null, notice.theirs))] : []),
      ...(notice.yours ? [h('p', null, `${words.net.yours}: `, h('strong', null, notice.yours))] : []),
      ...(notice.acts ? [h('div', { class: 'row' }, notice.acts.map(({ text, run }) => h('button', { type: 'button', click: run }, text)))] : []),
    ] : []))
  }

  /** A list of every answer that stands, each of which may be changed, and the last taken back. */
  chooseChange() {
    const talk = /** @type {Conversation} */ (this.talk)
    const entries = turnsOf(talk.session).filter((entry) => entry.question)
    const shut = openSheet({
      into: this.frame ?? this, heading: words.sheet.change,
      body: [entries.length === 0 ? words.sheet.nothing : h('ul', { class: 'choices' }, entries.toReversed().map((entry) => h('li', null,
        h('button', { type: 'button', 'data-question': entry.question, click: () => { shut(); void talk.change(entry.question ?? '') } },
          h('span', null, entry.question_text, ' ', h('strong', null, entry.answer_text))))))],
      actions: entries.length ? [{ text: words.sheet.undo, run: () => void talk.undo() }] : [],
    })
  }

  /** Asks what was noticed; one tap tells it and the reply halts. */
  async alarm() {
    const talk = /** @type {Conversation} */ (this.talk)
    await talk.attempt(async () => void (await talk.loadTree()), () => void this.alarm())
    const signs = talk.tree.find((question) => question.id === SIGNS)
    if (!signs) return
    const told = turnsOf(talk.session).findLast((entry) => entry.question === SIGNS)?.answer_text ?? ''
    const choices = (signs.choices ?? []).filter((choice) => choice.id !== 'none')
    const before = choices.filter((choice) => told.toLowerCase().includes((choice.text ?? '').toLowerCase())).map((choice) => choice.id ?? '')
    const shut = openSheet({
      into: this.frame ?? this, heading: words.alarm.heading, close: words.alarm.none,
      body: [h('p', null, words.alarm.lead), h('ul', { class: 'choices' }, choices.map(({ id = '', text }) => h('li', null,
        h('button', { type: 'button', 'data-choice': id, click: () => { shut(); void talk.tellDanger([...new Set([...before, id])]) } }, text))))],
    })
  }

  /** The back button came to an earlier turn, to the open one again, or to the quote. @param {number} turn */
  revisit(turn) {
    const talk = /** @type {Conversation} */ (this.talk)
    const entries = turnsOf(talk.session).filter((entry) => entry.question)
    const question = entries[turn]?.question
    if (question) void talk.change(question)
    else if (!Number.isInteger(turn)) void talk.see()
    else if (talk.quote) talk.goOn()
    else if (talk.changing) talk.keep()
  }
}

/** @param {() => void} go */
function startView(go) {
  return h('div', { class: 'question start' },
    h('h2', { id: 'question', tabindex: -1 }, words.start.heading),
    h('p', null, words.start.lead),
    h('p', null, words.start.unsure),
    h('p', null, words.start.private),
    h('p', { class: 'hint' }, words.price.none),
    h('button', { type: 'button', class: 'go', 'data-act': 'begin', click: go }, words.start.go))
}
