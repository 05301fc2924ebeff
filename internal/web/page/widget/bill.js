// The price lines of one option. Each line opens to why it is there, how its quantity came about and its range.
import { h } from './dom.js'
import { exact, minor, number } from './figures.js'
import { words } from './words.js'
import { steps, stepsOf, stepsOfLine, workingDetails } from './working.js'

/** @typedef {import('./wire').Bill} Bill */
/** @typedef {import('./wire').BillLine} BillLine */
/** @typedef {import('./wire').Money} Money */
/** @typedef {import('./wire').Working} Working */

/**
 * The lines, permit, tax and total of one price.
 * @param {Bill} bill @param {(Working | undefined)[]} sheets where the steps behind the lines stand
 */
export function billBlock(bill, sheets) {
  const { permit, tax } = bill
  return h('div', { class: 'block' },
    h('ul', { class: 'bill' },
      (bill.lines ?? []).map((line) => lineRow(line, bill.working, sheets)),
      minor(bill.discount) !== 0 && row(words.bill.discount, bill.discount, []),
      permit && row(words.bill.permit, permit.amount, [
        ofRule(bill, 'pricing.permit'),
        (permit.needs ?? []).map((need) => h('p', null, need)),
        facts([[words.bill.by, permit.jurisdiction], [words.bill.days, (permit.working_days ?? []).join(' – ')]])]),
      tax && row(tax.included ? words.bill.taxIncluded : words.bill.tax, tax.amount, [
        ofRule(bill, 'pricing.tax'),
        facts([[words.bill.rate, percent(tax.rate)], [words.bill.base, exact(tax.base)], [words.bill.by, tax.jurisdiction]])]),
      h('li', { class: 'total' }, detail(words.result.total, bill.total?.likely, [
        ofRule(bill, 'pricing.total'), ofRule(bill, 'pricing.minimum'),
        facts([[words.result.low, exact(bill.total?.low)], [words.result.high, exact(bill.total?.high)]]),
        ofRule(bill, 'pricing.spread')])),
      bill.feet_assumed && row(words.result.tenFeet, bill.ten_more_feet, [ofRule(bill, 'pricing.ten_feet')],
        `${words.result.feet}: ${number(bill.feet_assumed, 1)} ft`, true)),
    workingDetails(words.bill.working, bill.working),
    (bill.notes?.length ?? 0) > 0 && h('div', null,
      h('h4', null, words.bill.notes),
      h('ul', { class: 'bullets' }, (bill.notes ?? []).map((each) => h('li', null, h('span', null, each.text))))))
}

/** @param {BillLine} line @param {Working | undefined} bill @param {(Working | undefined)[]} sheets */
function lineRow(line, bill, sheets) {
  const each = line.unit_price ? `${exact(line.unit_price)} / ${line.unit ?? ''}` : ''
  const much = [line.quantity, line.unit].filter(Boolean).join(/^\d/.test(line.unit ?? '') ? ' × ' : ' ')
  return row(line.text ?? '', line.likely, [
    stepsOfLine(bill, line) ?? h('p', null, line.why?.text),
    facts([
      [words.bill.quantity, much],
      [words.bill.hours, line.hours],
      [words.bill.each, each],
      [words.result.wide, line.low && `${exact(line.low)} – ${exact(line.high)}`],
    ]),
    stepsOf(sheets, line.from_rule)], much)
}

/**
 * @param {string} text @param {Money | undefined} amount @param {(import('./dom.js').Child | import('./dom.js').Child[])[]} inside
 * @param {string} [hint] @param {boolean} [beside] stands beside the sum, not in it
 */
const row = (text, amount, inside, hint = '', beside = false) => h('li', { class: beside && 'beside' }, detail(text, amount, inside, hint))

/** @param {string} text @param {Money | undefined} amount @param {(import('./dom.js').Child | import('./dom.js').Child[])[]} inside @param {string} [hint] */
function detail(text, amount, inside, hint = '') {
  return h('details', null,
    h('summary', null,
      h('span', null, h('span', { class: 'cap' }, text), h('span', { class: 'hint' }, hint), ' ', h('span', { class: 'open' }, words.result.how)),
      h('span', { class: 'amount' }, exact(amount))),
    h('div', { class: 'inside' }, ...inside))
}

/** @param {Bill} bill @param {string} stem the rules that begin so */
const ofRule = (bill, stem) => steps(bill.working, (step) => (step.rule ?? '').startsWith(stem))

/** A list of names and values; those without a value are left out. @param {[string, string | number | undefined | false][]} pairs */
export function facts(pairs) {
  return h('dl', { class: 'facts' }, pairs.filter(([, value]) => value).map(([name, value]) => h('div', null, h('dt', null, name), h('dd', null, value))))
}

/** @param {string | undefined} rate a decimal, 0.0825 */
const percent = (rate) => rate && `${Number((Number(rate) * 100).toFixed(4))} %`
