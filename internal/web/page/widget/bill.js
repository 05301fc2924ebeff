// The price lines of one option. Each line opens to why it is there, how its quantity came about and its range.
import { h } from './dom.js'
import { exact } from './figures.js'
import { words } from './words.js'
import { workingDetails } from './working.js'

/** @typedef {import('./wire').Bill} Bill */
/** @typedef {import('./wire').BillLine} BillLine */
/** @typedef {import('./wire').Money} Money */

/** @param {Bill} bill */
export function billBlock(bill) {
  return h('div', { class: 'block' },
    h('ul', { class: 'bill' },
      (bill.lines ?? []).map(lineRow),
      (bill.permits ?? []).map((permit) => row(permit.text ?? '', permit.amount, [
        h('p', null, permit.jurisdiction)])),
      (bill.taxes ?? []).map((tax) => row(tax.text ?? '', tax.amount, [
        facts([[words.bill.rate, percent(tax.rate)], [words.bill.base, exact(tax.base)], [words.bill.by, tax.jurisdiction], [words.bill.rounding, tax.rounding]])])),
      h('li', { class: 'total' }, h('div', { class: 'plain' },
        h('span', null, words.result.total), h('span', { class: 'amount' }, exact(bill.total?.likely))))),
    workingDetails(words.bill.working, bill.working),
    (bill.exclusions?.length ?? 0) > 0 && h('div', null,
      h('h4', null, words.bill.exclusions),
      h('ul', { class: 'bullets' }, (bill.exclusions ?? []).map((each) => h('li', null, '– ', each.text)))))
}

/** @param {BillLine} line */
function lineRow(line) {
  const each = line.unit_price ? `${exact(line.unit_price)} / ${line.unit ?? ''}` : ''
  return row(line.text ?? '', line.likely, [
    line.why && h('p', null, line.why),
    line.how && h('p', { class: 'formula' }, line.how),
    facts([
      [words.bill.quantity, [line.quantity, line.unit].filter(Boolean).join(' ')],
      [words.bill.hours, line.hours],
      [words.bill.each, each],
      [words.result.wide, line.low && `${exact(line.low)} – ${exact(line.high)}`],
    ])], [line.quantity, line.unit].filter(Boolean).join(' '))
}

/** @param {string} text @param {Money | undefined} amount @param {import('./dom.js').Child[]} inside @param {string} [hint] */
function row(text, amount, inside, hint = '') {
  return h('li', null, h('details', null,
    h('summary', null,
      h('span', null, text, ' ', hint && h('span', { class: 'hint' }, hint), ' ', h('span', { class: 'open' }, words.result.how)),
      h('span', { class: 'amount' }, exact(amount))),
    h('div', { class: 'inside' }, inside)))
}

/** A list of names and values; those without a value are left out. @param {[string, string | number | undefined | false][]} pairs */
export function facts(pairs) {
  return h('dl', { class: 'facts' }, pairs.filter(([, value]) => value).map(([name, value]) => h('div', null, h('dt', null, name), h('dd', null, value))))
}

/** @param {string | undefined} rate a decimal, 0.0825 */
const percent = (rate) => rate && `${Number((Number(rate) * 100).toFixed(4))} %`
