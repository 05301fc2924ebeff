// The working behind a number: formula, one plain sentence, where it is written and how firmly that is known.
import { h } from './dom.js'
import { words } from './words.js'

/** @typedef {import('./wire').Working} Working */
/** @typedef {import('./wire').WorkingSource} WorkingSource */

/** @typedef {import('./wire').WorkingStep} WorkingStep */

/**
 * The steps of a sheet, in order; nothing when none is wanted.
 * @param {Working | undefined} working @param {(step: WorkingStep) => boolean} [wanted]
 */
export function steps(working, wanted = () => true) {
  const kept = (working?.steps ?? []).filter(wanted)
  if (!kept.length) return null
  return h('ol', { class: 'steps' }, kept.map((step) => {
    const source = step.source === undefined ? undefined : working?.sources?.[step.source]
    return h('li', null,
      h('p', null, step.sentence),
      h('p', { class: 'formula' }, step.formula),
      source && h('p', { class: 'small' }, cite(source)))
  }))
}

/**
 * The steps of one rule, from the first sheet that has it.
 * @param {(Working | undefined)[]} sheets @param {string | undefined} rule
 */
export function stepsOf(sheets, rule) {
  const sheet = rule && sheets.find((each) => each?.steps?.some((step) => step.rule === rule))
  return sheet ? steps(sheet, (step) => step.rule === rule) : null
}

/**
 * The steps of a bill behind one of its lines: of its rule, and where several lines share the rule, those that name the
 * line or come to its quantity.
 * @param {Working | undefined} working @param {import('./wire').BillLine} line
 */
export function stepsOfLine(working, line) {
  const own = (working?.steps ?? []).filter((step) => step.rule === line.why?.key)
  const named = own.filter((step) => step.terms?.some((term) => term.word === line.code))
  const equal = own.filter((step) => step.result?.number === Number(line.quantity))
  const kept = named.length ? named : equal.length ? equal : own
  return steps(working, (step) => kept.includes(step))
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
