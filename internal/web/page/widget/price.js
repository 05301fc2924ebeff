// The price so far, as a range in words. It speaks up only when the middle moves by 5 % or the width by 10 %.
import { facts } from './bill.js'
import { h } from './dom.js'
import { minor, round } from './figures.js'
import { rangeText } from './options.js'
import { words } from './words.js'

/** @typedef {import('./wire').Band} Band */

/** The strip, and below it the option that leads. */
export class Price {
  /** @param {() => void} see asks for the quote */
  constructor(see) {
    this.see = see
    this.range = h('p', { class: 'range' })
    this.status = h('p', { role: 'status', class: 'unseen' })
    this.go = h('button', { type: 'button', class: 'go', click: () => this.see() }, words.price.see)
    this.node = h('section', { class: 'price', 'aria-labelledby': 'price-title' },
      h('h2', { id: 'price-title' }, words.price.heading), h('figure', { class: 'strip' }, this.range), this.go, this.status)
    this.lead = h('section', { class: 'lead', 'aria-label': words.price.lead })
    /** @type {{middle: number, width: number} | undefined} */
    this.spoken = undefined
  }

  /** @param {Band | undefined} band @param {{revision?: string, halted?: boolean, unpriced?: boolean}} session
   * @param {boolean} answered whether there is anything to quote */
  show(band, { revision, halted, unpriced }, answered) {
    this.go.hidden = !answered || Boolean(halted)
    const stale = Boolean(band && band.revision && band.revision !== revision)
    this.range.textContent = halted ? words.price.halted : band ? rangeText(band.price)
      : !answered ? words.price.none : unpriced ? words.price.unpriced : words.net.slow
    this.range.classList.toggle('none', halted || !band)
    this.range.classList.toggle('still', stale)
    this.lead.hidden = !band || Boolean(halted)
    if (!band || halted) return
    this.lead.replaceChildren(
      ...(band.leading_title?.text ? [h('p', { class: 'kind' }, words.price.lead), h('h3', null, band.leading_title.text)] : []),
      h('p', { class: 'hint' }, band.sentence?.text),
      facts([[words.price.middle, round(band.price?.likely)]]),
      stale ? h('p', { class: 'hint' }, words.price.stale) : '')
    this.speak(band)
  }

  /** @param {Band} band */
  speak(band) {
    const middle = minor(band.price?.likely)
    const width = minor(band.price?.high) - minor(band.price?.low)
    const old = this.spoken
    const moved = !old || Math.abs(middle - old.middle) > 0.05 * old.middle || Math.abs(width - old.width) > 0.1 * old.width
    if (!moved) return
    this.spoken = { middle, width }
    this.status.textContent = band.sentence?.text || rangeText(band.price)
  }
}
