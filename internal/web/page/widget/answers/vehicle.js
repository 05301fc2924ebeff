// Search for a car: a combobox whose list follows what is typed. The focus stays in the field; the list is pointed at.
import { fresh, h } from '../dom.js'
import { words } from '../words.js'

/** @typedef {import('./kinds.js').Asked} Asked */
/** @typedef {import('./kinds.js').Car} Car */

/** @param {Asked} asked @returns {import('./kinds.js').Part} */
export function vehicleAnswer({ hintId, errorId, typed, send, fail, vehicles, unsure }) {
  const [id, listId] = [fresh('car'), fresh('cars')]
  /** @type {Car[]} */
  let cars = []
  /** @type {Car[]} */
  let found = []
  let at = -1
  /** @type {Car | undefined} */
  let picked
  const list = h('ul', { id: listId, role: 'listbox', 'aria-label': words.vehicle.label, class: 'list', hidden: true })
  const count = h('p', { class: 'hint', role: 'status' })
  const field = h('input', {
    id, type: 'text', role: 'combobox', autocomplete: 'off', 'aria-autocomplete': 'list', 'aria-expanded': 'false', 'aria-controls': listId,
    'aria-describedby': `${hintId} ${errorId}`, value: typed ?? '', enterkeyhint: 'search',
  })

  const point = (/** @type {number} */ to) => {
    at = to
    for (const [i, row] of [...list.children].entries()) row.setAttribute('aria-selected', String(i === at))
    const row = list.children[at]
    if (row) {
      field.setAttribute('aria-activedescendant', row.id)
      row.scrollIntoView({ block: 'nearest' })
    } else field.removeAttribute('aria-activedescendant')
  }
  const open = (/** @type {boolean} */ wanted) => {
    list.hidden = !wanted || found.length === 0
    field.setAttribute('aria-expanded', String(!list.hidden))
    if (list.hidden) point(-1)
  }
  const filter = () => {
    const wanted = field.value.toLowerCase().split(/[\s,-]+/).filter(Boolean)
    found = cars.filter((car) => wanted.every((word) => car.label.toLowerCase().includes(word)))
    list.replaceChildren(...found.map((car) => h('li', {
      id: fresh('car-row'), role: 'option', 'aria-selected': 'false',
      // Pressing must not take the focus out of the field before the click is heard.
      mousedown: (/** @type {Event} */ event) => event.preventDefault(),
      click: () => pick(car),
    }, car.label)))
    count.textContent = found.length ? words.vehicle.counted(found.length) : words.vehicle.none
  }
  const pick = (/** @type {Car} */ car) => {
    picked = car
    field.value = car.label
    open(false)
    send({ text: car.id })
  }
  field.addEventListener('input', () => {
    picked = undefined
    filter()
    open(true)
  })
  field.addEventListener('click', () => { filter(); open(true) })
  field.addEventListener('blur', () => open(false))
  field.addEventListener('keydown', (event) => {
    if (event.key === 'Escape' && !list.hidden) {
      open(false)
    } else if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      if (list.hidden) { filter(); open(true) }
      const way = event.key === 'ArrowDown' ? 1 : -1
      point(at < 0 && way < 0 ? found.length - 1 : (at + way + found.length) % Math.max(1, found.length))
    } else if (event.key === 'Enter' && at >= 0 && found[at]) {
      pick(found[at])
    } else return
    event.preventDefault()
  })
  const submit = () => {
    const only = picked ?? cars.find((car) => car.label.toLowerCase() === field.value.trim().toLowerCase()) ?? (found.length === 1 && field.value ? found[0] : undefined)
    if (only) return pick(only)
    field.setAttribute('aria-invalid', 'true')
    field.focus()
    fail(words.vehicle.pick)
  }
  vehicles().then((all) => {
    cars = all
    filter()
  })
  return {
    node: h('div', { class: 'stack' },
      h('label', { class: 'fieldname', for: id }, words.vehicle.label),
      h('p', { class: 'hint' }, words.vehicle.hint),
      h('div', { class: 'combo' }, field, list), count,
      h('button', { type: 'submit', class: 'go' }, words.question.next),
      h('button', { type: 'button', click: unsure }, words.vehicle.unlisted)),
    submit,
    field,
    typed: () => field.value,
  }
}
