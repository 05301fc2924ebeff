// The working behind a number: formula, one plain sentence, where it is written and how firmly that is known.
import { h } from './dom.js'
import { words } from './words.js'

/** @typedef {import('./wire').Working} Working */
/** @typedef {import('./wire').WorkingSource} WorkingSource */

/**
 * The steps of a sheet, in order.
 * @param {Working | undefined} working @param {(rule: string) => boolean} [wanted] keeps only the steps of some rules
 */
export function steps(working, wanted = () => true) {
  const kept = (working?.steps ?? []).filter((step) => wanted(step.rule ?? ''))
  return h('ol', { class: 'steps' }, kept.map((step) => {
    const source = step.source === undefined ? undefined : working?.sources?.[step.source]
    return h('li', null,
      h('p', null, step.sentence),
      h('p', { class: 'formula' }, step.formula),
      source && h('p', { class: 'small' }, cite(source)))
  }))
}

/**
 * The steps of one rule, wherever in some sheets they stand.
 * @param {(Working | undefined)[]} sheets @param {string | undefined} rule
 */
export function stepsOf(sheets, rule) {
  const sheet = rule && sheets.find((each) => each?.steps?.some((step) => step.rule === rule))
  return sheet ? steps(sheet, (each) => each === rule) : null
}

/**
 * A disclosure holding a sheet, or nothing when the sheet is empty.
 * @param {string} summary @param {Working | undefined} working
 */
export function workingDetails(summary, working) {
  if (!working?.steps?.length) return null
  return h('details', null, h('summary', null, summary), steps(working))
}

/** @param {WorkingSource} source */
function cite(source) {
  const where = [source.publication, source.section, source.cell].filter(Boolean).join(', ')
  return [where, words.statuses[source.status ?? '']].filter(Boolean).join(' · ')
}
