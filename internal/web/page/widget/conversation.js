// One conversation with the service: what it says now, and every act on it. It knows no element of the page.
import { ServiceError } from './client.js'
import { said } from './said.js'
import { uuid } from './uuid.js'
import { words } from './words.js'

/** @typedef {import('./wire').Session} Session */
/** @typedef {import('./wire').Quote} Quote */
/** @typedef {import('./wire').Question} Question */
/** @typedef {import('./answers/kinds.js').Given} Given */
/** @typedef {{text: string, acts?: {text: string, run: () => void}[], theirs?: string, yours?: string}} Notice */

/** The question that tells dangers; it can be answered at any turn. */
export const SIGNS = 'place.signs'

/** A block walk is never longer than this. */
const LONGEST_BLOCK = 16

/** A conversation as it stands. `changed` is called whenever something to be seen is different. */
export class Conversation {
  /** @type {Session | undefined} */ session
  /** @type {Quote | undefined} the quote on the page */ quote
  /** @type {import('./wire').Band | undefined} */ band
  /** @type {string | undefined} the question being answered again */ changing
  /** @type {Notice | undefined} */ notice
  /** @type {string} what to give instead, said above the field */ error = ''
  /** @type {Question[]} */ tree = []
  busy = false
  unpriced = false
  pastHalt = false

  /**
   * @param {import('./client.js').Client} client @param {import('./memory.js').Memory} memory
   * @param {(why: 'answered' | 'moved' | 'said' | 'band') => void} changed
   */
  constructor(client, memory, changed) {
    this.client = client
    this.memory = memory
    this.changed = changed
  }

  /** Takes up what this tab held before a reload: an unfinished beginning, an unfinished write, an open quote. */
  async resume() {
    const { name, secret, create, pending, quote } = this.memory.held
    if (!name && create) return this.begin()
    if (!name || !secret) return
    const ok = await this.attempt(async () => this.accept((await this.get(`/v1/${name}`)).session), () => this.resume())
    if (!ok) return
    if (pending) await this.resend(pending)
    if (quote) await this.attempt(async () => {
      this.quote = (await this.get(`/v1/${quote}?view=QUOTE_VIEW_FULL`)).quote
    }, () => this.resume())
    this.changed('moved')
    this.reckon()
  }

  /** Begins a conversation. The request id is kept first, so a reload finds the same one. */
  async begin() {
    const create = this.memory.held.create ?? uuid()
    this.memory.keep({ create })
    await this.attempt(async () => {
      const reply = await this.client.call('/v1/sessions', { body: { request_id: create, locale: 'en-US' } })
      this.memory.keep({ name: reply.session.name, secret: reply.secret, create: undefined })
      this.accept(reply.session)
      this.changed('answered')
    }, () => this.begin())
  }

  /** Ends this conversation here and at the service. */
  async startOver() {
    const { name, secret } = this.memory.held
    this.forget()
    this.changed('answered')
    if (name) await this.client.call(`/v1/${name}`, { method: 'DELETE', secret }).catch(() => undefined)
  }

  /** The question to show: the one being changed, else the open one. @returns {Question | undefined} */
  get question() {
    const changing = this.changing && this.tree.find((question) => question.id === this.changing)
    return changing || this.session?.turn?.question
  }

  /** What stands as the answer to the question shown: ids of choices, or its text. */
  get before() {
    if (!this.changing) return this.session?.turn?.chosen ?? []
    const entry = turnsOf(this.session).findLast((each) => each.question === this.changing)
    return entry?.answer_text ? [entry.answer_text, ...entry.answer_text.split(/, |; /)] : []
  }

  /** @param {Given} given the answer to the question shown */
  async answer(given) {
    const question = this.question?.id
    if (question) await this.write([{ question, ...given }], this.session?.revision)
  }

  /** Tells a danger at any turn; what was told before stays told. @param {string[]} ids */
  async tellDanger(ids) {
    await this.write([{ question: SIGNS, choices: { ids } }], this.session?.revision)
  }

  /** Marks every question of the open block unsure, one after the other, until the block is left. */
  async guessBlock() {
    const block = this.session?.turn?.question?.block
    for (let i = 0; block && i < LONGEST_BLOCK && !this.session?.halted && this.session?.turn?.question?.block === block; i++) {
      const at = this.session.revision
      await this.answer({ unsure: {} })
      if (this.session?.revision === at) return
    }
  }

  /** Takes the last answer back. */
  async undo() {
    await this.send({ path: `/v1/${this.session?.name}:undo`, body: { base_revision: this.session?.revision, request_id: uuid() } })
  }

  /** Shows a question again. @param {string} id */
  async change(id) {
    await this.attempt(async () => {
      await this.loadTree()
      this.quote = undefined
      this.memory.keep({ quote: undefined })
      this.changing = id
      this.error = ''
      this.changed('answered')
    }, () => this.change(id))
  }

  /** Goes back to the open question without changing anything. */
  keep() {
    this.changing = undefined
    this.error = ''
    this.pastHalt = true
    this.changed('answered')
  }

  /** Asks for the quote as the conversation stands. */
  async see() {
    await this.attempt(async () => {
      const body = { session: this.session?.name, view: 'QUOTE_VIEW_FULL', request_id: uuid() }
      this.quote = (await this.client.call('/v1/quotes', { body, secret: this.memory.held.secret })).quote
      this.memory.keep({ quote: this.quote?.name })
      this.changed('answered')
    }, () => this.see())
  }

  /** Leaves the quote for the next question. */
  goOn() {
    this.quote = undefined
    this.memory.keep({ quote: undefined })
    this.pastHalt = true
    this.changed('answered')
  }

  /** @param {string} text what to give instead */
  fail(text) {
    this.error = text
    this.changed('said')
  }

  /** @param {import('./wire').Answer[]} answers @param {string | undefined} base */
  async write(answers, base) {
    await this.send({ path: `/v1/${this.session?.name}:answer`, body: { answers, base_revision: base, request_id: uuid() } })
  }

  /** @param {import('./memory.js').Pending} pending */
  async send(pending) {
    if (this.busy) return
    this.memory.keep({ pending })
    await this.resend(pending)
  }

  /** Sends a write as it was first sent; the request id makes twice the same as once. @param {import('./memory.js').Pending} pending */
  async resend(pending) {
    await this.attempt(async () => {
      const reply = await this.client.call(pending.path, { body: pending.body, secret: this.memory.held.secret })
      this.memory.keep({ pending: undefined })
      this.accept(reply.session)
      this.changing = undefined
      this.pastHalt = false
      this.quote = undefined
      this.memory.keep({ quote: undefined })
      this.changed('answered')
      this.reckon()
    }, () => this.resend(pending), pending)
  }

  /** Reads the price range for the newest revision; an older one is shown as such until it comes. */
  async reckon() {
    const revision = this.session?.revision
    if (!this.session || !turnsOf(this.session).length || this.session.halted) {
      this.band = undefined
      return this.changed('band')
    }
    try {
      const { session } = await this.get(`/v1/${this.session.name}?view=SESSION_VIEW_BAND`)
      if (this.session?.revision !== revision) return
      this.band = session.band
      this.unpriced = !session.band
    } catch {
      // The range is an extra: the conversation goes on, and the last range says which answer it belongs to.
      this.unpriced = !this.band
    }
    this.changed('band')
  }

  async loadTree() {
    if (this.tree.length === 0) this.tree = (await this.client.call('/v1/questionTree?locale=en-US')).tree?.questions ?? []
    return this.tree
  }

  /** @param {string} path */
  get(path) {
    return this.client.call(path, { secret: this.memory.held.secret })
  }

  /** @param {Session} session */
  accept(session) {
    this.session = session
    this.error = ''
  }

  forget() {
    this.memory.forget()
    this.session = this.quote = this.band = this.changing = this.notice = undefined
    this.error = ''
    this.pastHalt = false
  }

  /**
   * Does something at the service; says what went wrong in words and offers the way on. True when it was done.
   * @param {() => Promise<void>} act @param {() => void} again @param {import('./memory.js').Pending} [pending]
   */
  async attempt(act, again, pending) {
    this.busy = true
    this.changed('said')
    const slow = [setTimeout(() => this.say(words.net.slow), 400), setTimeout(() => this.say(words.net.slower), 4000)]
    try {
      this.notice = undefined
      await act()
      this.notice = undefined
      return true
    } catch (error) {
      if (!(error instanceof ServiceError)) throw error
      await this.refused(error, again, pending)
      return false
    } finally {
      slow.forEach(clearTimeout)
      this.busy = false
      this.changed('said')
    }
  }

  /** @param {string} text */
  say(text) {
    this.notice = { text }
    this.changed('said')
  }

  /** @param {ServiceError} error @param {() => void} again @param {import('./memory.js').Pending} [pending] */
  async refused(error, again, pending) {
    const retry = [{ text: words.net.again, run: again }]
    if (error.unreached) this.notice = { text: words.net.fails, acts: retry }
    else if (error.busy) this.notice = { text: words.net.wait, acts: retry }
    else if (error.conflict && pending) await this.settle(pending)
    else if (error.gone) {
      this.forget()
      this.notice = { text: words.net.gone }
      this.changed('moved')
    } else {
      this.memory.keep({ pending: undefined })
      if (pending) this.error = error.message
      else this.notice = { text: error.message, acts: retry }
    }
  }

  /** Somebody else answered first: shows theirs and yours, and lets the person say which. @param {import('./memory.js').Pending} pending */
  async settle(pending) {
    this.memory.keep({ pending: undefined })
    try {
      this.accept((await this.get(`/v1/${this.session?.name}`)).session)
    } catch {
      this.notice = { text: words.net.fails, acts: [{ text: words.net.again, run: () => this.settle(pending) }] }
      return
    }
    const answer = pending.body.answers?.[0]
    const theirs = turnsOf(this.session).findLast((entry) => entry.question === answer?.question)
    this.notice = !answer || !theirs ? { text: `${words.net.conflict} ${words.net.refreshed}` } : {
      text: words.net.conflict,
      theirs: theirs.answer_text,
      yours: said(answer, await this.loadTree().catch(() => [])),
      acts: [
        { text: words.net.keep, run: () => { this.notice = undefined; this.changed('answered') } },
        { text: words.net.mine, run: () => this.write(pending.body.answers, this.session?.revision) },
      ],
    }
    this.changed('moved')
    this.reckon()
  }
}

/** An entry that counts, or would if its branch did. @param {import('./wire').LogEntry} entry */
const standing = (entry) => entry.state !== 'ENTRY_STATE_CHANGED' && entry.state !== 'ENTRY_STATE_UNDONE'

/**
 * The turns of a conversation. A guess such as "about 40" lies in the log as a skip and the range it left; that is one turn.
 * @param {Session | undefined} session @returns {import('./wire').LogEntry[]}
 */
export function turnsOf(session) {
  /** @type {import('./wire').LogEntry[]} */
  const turns = []
  for (const entry of (session?.entries ?? []).filter(standing)) {
    const last = turns.at(-1)
    if (!entry.question && last?.state === 'ENTRY_STATE_SKIPPED') {
      turns[turns.length - 1] = { ...last, answer_text: entry.answer_text, state: entry.state }
    } else turns.push(entry)
  }
  return turns
}
