// The seven kinds of turn and the part that asks each. What a part hands back is the contract's answer, ready to send.
import { choiceAnswer } from './choice.js'
import { hourAnswer } from './hour.js'
import { numberAnswer } from './number.js'
import { pictureAnswer } from './picture.js'
import { postalAnswer } from './postal.js'
import { severalAnswer } from './several.js'
import { vehicleAnswer } from './vehicle.js'

/** @typedef {import('../wire').Question} Question */
/** @typedef {Omit<import('../wire').Answer, 'question'>} Given */
/** @typedef {{id: string, label: string}} Car */
/**
 * @typedef {object} Asked what a part is given
 * @property {Question} question
 * @property {string} titleId names the group @property {string} hintId @property {string} errorId
 * @property {string[]} before choice ids, or the text, of the answer that stands now
 * @property {string} [typed] what the field held before it was drawn again
 * @property {(given: Given) => void} send
 * @property {(text: string) => void} fail says what to give instead
 * @property {() => void} unsure answers "I don't know"
 * @property {() => Promise<Car[]>} vehicles
 * @property {(choice: import('../wire').Choice) => string} pictures the address of a choice's drawing, or ''
 * @property {Element} into where a sheet may be opened
 */
/**
 * @typedef {object} Part
 * @property {HTMLElement} node
 * @property {HTMLUListElement} [list] a list of choices "I don't know" may join
 * @property {() => void} [submit] @property {HTMLInputElement} [field] @property {() => string} [typed]
 */

/** @type {Record<string, (asked: Asked) => Part>} */
const parts = {
  QUESTION_KIND_ONE: choiceAnswer,
  QUESTION_KIND_SEVERAL: severalAnswer,
  QUESTION_KIND_NUMBER: numberAnswer,
  QUESTION_KIND_HOUR: hourAnswer,
  QUESTION_KIND_POSTAL: postalAnswer,
  QUESTION_KIND_VEHICLE: vehicleAnswer,
  QUESTION_KIND_PICTURE: pictureAnswer,
}

/** @param {Asked} asked @returns {Part} */
export const partFor = (asked) => (parts[asked.question.kind ?? ''] ?? choiceAnswer)(asked)
