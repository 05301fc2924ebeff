// Money, numbers and dates for reading. The values come whole from the service; here they are only written out.

/** @typedef {{currency_code?: string, minor_units?: string | number}} Money minor units: a 64-bit whole number, text in JSON */

const LOCALE = 'en-US'

/** @param {string} currency */
const exponent = (currency) =>
  new Intl.NumberFormat(LOCALE, { style: 'currency', currency }).resolvedOptions().maximumFractionDigits ?? 2

/** A bill's figure: always with its cents. @param {Money | undefined} money */
export function exact(money) {
  if (!money) return ''
  const currency = money.currency_code ?? 'USD'
  return new Intl.NumberFormat(LOCALE, { style: 'currency', currency }).format(major(money, currency))
}

/** A band's figure: to 10 below 1,000, to 50 below 5,000, else to 100. @param {Money | undefined} money */
export function round(money) {
  if (!money) return ''
  const currency = money.currency_code ?? 'USD'
  const value = major(money, currency)
  const size = Math.abs(value)
  const step = size < 1000 ? 10 : size < 5000 ? 50 : 100
  return new Intl.NumberFormat(LOCALE, { style: 'currency', currency, maximumFractionDigits: 0 }).format(Math.round(value / step) * step)
}

/** @param {Money | undefined} money minor units as a number, to compare two figures */
export const minor = (money) => Number(money?.minor_units ?? 0)

/** @param {Money} money @param {string} currency */
const major = (money, currency) => minor(money) / 10 ** exponent(currency)

/** @param {number} value @param {number} [decimals] */
export const number = (value, decimals = 2) => new Intl.NumberFormat(LOCALE, { maximumFractionDigits: decimals }).format(value)

/** An hour of the day, 0 to 24, as it is said: 19.5 is 7:30 PM. @param {number} hour */
export function clock(hour) {
  const minutes = Math.round(hour * 60) % (24 * 60)
  const time = new Date(Date.UTC(2000, 0, 1, Math.floor(minutes / 60), minutes % 60))
  return new Intl.DateTimeFormat(LOCALE, { timeStyle: 'short', timeZone: 'UTC' }).format(time)
}

/** A calendar date as the contract writes it, "2026-08-03". @param {string | undefined} date */
export function day(date) {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(date ?? '')
  if (!parts) return ''
  const time = new Date(Date.UTC(Number(parts[1]), Number(parts[2]) - 1, Number(parts[3])))
  return new Intl.DateTimeFormat(LOCALE, { dateStyle: 'long', timeZone: 'UTC' }).format(time)
}

/** A length of time in hours as it is read: 3.33 is 3 h 20 min. @param {number} value */
export function hours(value) {
  const minutes = Math.round(value * 60)
  const [whole, rest] = [Math.floor(minutes / 60), minutes % 60]
  return [whole && `${whole} h`, (rest || !whole) && `${rest} min`].filter(Boolean).join(' ')
}
