// An answer back in the words of its question.
import { words } from './words.js'

/** @typedef {import('./wire').Question} Question */

/** An answer in the words of its question, to be set beside another. @param {import('./wire').Answer} answer @param {Question[]} tree */
export function said(answer, tree) {
  const choices = tree.find((question) => question.id === answer.question)?.choices ?? []
  const ids = answer.choice ? [answer.choice] : answer.choices?.ids
  if (ids) return ids.map((id) => choices.find((choice) => choice.id === id)?.text ?? id).join(', ') || words.alarm.none
  if (answer.number) return [answer.number.value, answer.number.high].filter((end) => end !== undefined).join(` ${words.price.to} `)
  return answer.text ?? answer.hour?.toString() ?? (answer.skip ? words.turn.skipped : words.turn.unsure)
}
