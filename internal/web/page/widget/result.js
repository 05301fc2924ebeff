// The quote: one sentence, the gravest caution right under it, the options, then every line and everything still guessed.
import { billBlock, facts } from './bill.js'
import { cautionBox } from './cautions.js'
import { h, unseen } from './dom.js'
import { day } from './figures.js'
import { optionCards, rangeText, roleNames } from './options.js'
import { words } from './words.js'
import { workingDetails } from './working.js'

/** @typedef {import('./wire').Quote} Quote */
/** @typedef {import('./wire').Option} Option */

/**
 * @param {Quote} quote
 * @param {{goOn?: () => void, startOver: () => void, chosen?: string, onChoose: (id: string) => void, ask: (question: string) => void}} acts
 */
export function resultView(quote, { goOn, startOver, chosen, onChoose, ask }) {
  const options = quote.options ?? []
  const best = options.find((option) => option.roles?.includes('OPTION_ROLE_BEST_FIT')) ?? options[0]
  const below = h('div', { class: 'result' })
  const cards = h('div')
  const show = (/** @type {Option | undefined} */ option) => {
    cards.replaceChildren(options.length ? optionCards(options, option?.id ?? '', (id) => {
      onChoose(id)
      show(options.find((each) => each.id === id))
      const radio = cards.querySelector(`[data-option="${CSS.escape(id)}"] input`)
      if (radio instanceof HTMLElement) radio.focus()
    }) : h('p', null, words.result.none))
    below.replaceChildren(...(option ? chosenBlocks(option) : []))
  }
  show(options.find((option) => option.id === chosen) ?? best)

  const [first, ...others] = quote.cautions ?? []
  return h('div', { class: 'result new' },
    h('div', { class: 'block' },
      h('h2', { tabindex: -1 }, words.result.heading),
      h('p', { class: 'headline' }, quote.headline?.text),
      first && cautionBox(first),
      quote.expired_book && h('p', { class: 'error' }, quote.expired_book.text),
      standing(quote),
      quote.band && facts([[words.result.range, rangeText(quote.band)]])),
    h('div', { class: 'block' }, h('h3', null, words.result.options), cards),
    below,
    guesses(quote, ask),
    listBlock(words.result.movers, (quote.movers ?? []).map((each) => each.text ?? '')),
    listBlock(words.result.verify, (quote.to_verify ?? []).map((each) => [each.what?.text, each.otherwise?.text].filter(Boolean).join(' '))),
    others.length > 0 && h('div', { class: 'block' }, h('h3', null, words.result.cautions), h('div', { class: 'stack' },
      others.map((caution) => cautionBox(caution, { heading: 'h4' })))),
    (quote.lost?.length ?? 0) > 0 && h('details', null, h('summary', null, words.result.lost), h('ul', { class: 'steps' },
      (quote.lost ?? []).map((way) => h('li', null, h('strong', null, way.title?.text), ' ', rangeText(way.price),
        [way.why?.text, ...texts(way.apart?.map((each) => each.what ?? {})), ...texts(way.unpriced), ...texts(way.asides?.map((each) => each.what ?? {}))]
          .filter(Boolean).map((line) => h('p', null, line)))))),
    workingDetails(words.result.working, quote.working),
    identity(quote),
    h('div', { class: 'row' },
      goOn && h('button', { type: 'button', class: 'go', click: goOn }, words.result.back),
      h('button', { type: 'button', click: startOver }, words.start.again)))
}

/** @param {Quote} quote */
function standing(quote) {
  return h('div', null,
    h('h3', null, words.result.standing),
    h('p', null, h('strong', null, words.standings[quote.standing ?? ''])),
    (quote.standing_reasons ?? []).map((reason) => h('p', null, reason.text)),
    (quote.contradictions ?? []).map((each) => h('p', { class: 'error' }, each.text)))
}

/** What belongs to the chosen option: lines, length, working, and what to look at. @param {Option} option */
function chosenBlocks(option) {
  const { bill, length } = option
  const sheets = [option.circuit?.working, option.panel?.working, option.working, bill?.working]
  return [
    listBlock(words.result.safe, texts(option.safe_first)),
    bill && h('div', { class: 'block' },
      h('h3', null, words.result.lines, ': ', option.title?.text ?? roleNames(option)),
      length?.text && h('p', null, length.text),
      billBlock(bill, sheets)),
    listBlock(words.bill.includes, texts(option.includes)),
    listBlock(words.bill.unpriced, texts(option.unpriced)),
    ...(option.apart ?? []).map(apart),
    h('div', { class: 'block' },
      h('h3', null, words.result.workings),
      h('div', null,
        workingDetails(words.result.workingPower, option.working),
        workingDetails(words.result.workingCircuit, option.circuit?.working),
        workingDetails(words.result.workingPanel, option.panel?.working))),
    listBlock(words.result.measures, (option.panel?.measures ?? []).map((measure) => [measure.what?.text, measure.section].filter(Boolean).join(' · '))),
    listBlock(words.result.change, texts(option.what_would_change && [option.what_would_change])),
    listBlock(words.result.flips, texts(option.flips)),
  ].filter((block) => block instanceof Node)
}

/** Work on a bill of its own beside the chosen option. @param {import('./wire').BillApart} each */
function apart(each) {
  return h('div', { class: 'block' },
    h('h3', null, words.bill.apart),
    h('p', null, each.what?.text),
    each.bill && billBlock(each.bill, [each.bill.working]),
    listBlock(words.bill.utility, texts(each.bill?.utility?.steps)))
}

/** What was taken for facts nobody told: those that decide first, each with the way to its question. @param {Quote} quote @param {(question: string) => void} ask */
function guesses(quote, ask) {
  const all = quote.assumptions ?? []
  const line = (/** @type {import('./wire').Assumption} */ each) => h('li', null, h('span', null, each.text || each.value),
    each.question && h('button', { type: 'button', class: 'quiet', click: () => ask(each.question ?? '') }, words.result.answer, unseen(`: ${each.text}`)))
  const [deciding, rest] = [all.filter((each) => each.decides), all.filter((each) => !each.decides)]
  if (!all.length) return null
  return h('div', { class: 'block' },
    h('h3', null, words.result.assumed),
    deciding.length > 0 && h('ul', { class: 'bullets' }, deciding.map(line)),
    rest.length > 0 && h('details', null, h('summary', null, words.result.taken(rest.length)), h('ul', { class: 'bullets' }, rest.map(line))))
}

/** @param {import('./wire').Words[] | undefined} list */
const texts = (list) => (list ?? []).map((each) => each.text ?? '').filter(Boolean)

/** @param {string} heading @param {string[]} lines */
function listBlock(heading, lines) {
  if (!lines.length) return null
  return h('div', { class: 'block' }, h('h3', null, heading), h('ul', { class: 'bullets' }, lines.map((line) => h('li', null, h('span', null, line)))))
}

/** @param {Quote} quote */
function identity(quote) {
  return h('div', { class: 'block' },
    h('p', null, words.result.reference, ' ', h('output', { class: 'reference' }, quote.reference)),
    facts([
      [words.result.asOf, day(quote.as_of_date)],
      [words.result.until, day(quote.valid_until_date)],
      [words.result.edition, [quote.edition?.text, quote.edition?.jurisdiction].filter(Boolean).join(', ')],
      [words.result.fingerprint, quote.fingerprint],
    ]),
    (quote.notices ?? []).map((notice) => h('p', { class: 'hint' }, notice.text)))
}
