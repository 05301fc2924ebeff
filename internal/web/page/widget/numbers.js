// Reading a number the way people type it: "40", "about 40", "15 to 20", "1,200". Units convert what is shown only.

/** @typedef {{low: number, high: number, about: boolean}} Reading one number has low equal to high */

/** How many of a metric unit go into one of the customary unit it is offered beside. @type {Record<string, number>} */
const factors = { km: 1.609344, m: 0.3048, m2: 0.09290304 }

/** The number to multiply a customary value by; 1 for the customary unit itself. @param {string} unit */
export const factor = (unit) => factors[unit] ?? 1

const NUMBER = String.raw`(\d+(?:\.\d+)?|\.\d+)`
const ONE = new RegExp(`^${NUMBER}$`)
const RANGE = new RegExp(`^${NUMBER}\\s*(?:-|–|to|or|and)\\s*${NUMBER}$`)

/**
 * Reads what was typed, or returns null when it is not a number or a range of two.
 * @param {string} typed @returns {Reading | null}
 */
export function read(typed) {
  let text = typed.trim().toLowerCase().replaceAll(/(\d),(?=\d{3}\b)/g, '$1').replace(/^\$/, '')
  const about = /^(about|around|roughly|maybe|some|~)\s*/.exec(text)
  if (about) text = text.slice(about[0].length)
  const between = /^between\s+/.exec(text)
  if (between) text = text.slice(between[0].length)
  text = text.replace(/\s*(miles?|mi|kilometers?|km|feet|foot|ft|meters?|m|amps?|a|kwh|kw|nights?|dollars?|sq(?:uare)? f(?:ee)?t\.?|square meters?|m2)\.?$/, '')
  const one = ONE.exec(text)
  if (one) return { low: Number(one[1]), high: Number(one[1]), about: about !== null }
  const range = RANGE.exec(text)
  if (!range) return null
  const [a, b] = [Number(range[1]), Number(range[2])]
  return { low: Math.min(a, b), high: Math.max(a, b), about: about !== null }
}

/**
 * Reads a time of day as an hour from 0 to 24, or null. A half of the day in the text wins over the one picked.
 * @param {string} typed @param {'am' | 'pm'} half @returns {number | null}
 */
export function readHour(typed, half) {
  const match = /^(\d{1,2})(?:[:.](\d{2}))?\s*(a|p)?\.?(?:m\.?)?$/.exec(typed.trim().toLowerCase())
  if (!match) return null
  const [hours, minutes] = [Number(match[1]), Number(match[2] ?? 0)]
  if (hours > 23 || minutes > 59) return null
  const fraction = minutes / 60
  if (hours > 12 || (hours === 0 && !match[3])) return hours + fraction
  const evening = match[3] ? match[3] === 'p' : half === 'pm'
  return (hours % 12) + (evening ? 12 : 0) + fraction
}
