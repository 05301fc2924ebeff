// What there is to choose from at the service.

/** @typedef {import('./answers/kinds.js').Car} Car */

/**
 * The cars of the catalogue, page after page. Without the list the sizes are asked instead, so a failure is an empty list.
 * @param {import('./client.js').Client} client @returns {Promise<Car[]>}
 */
export async function vehicles(client) {
  /** @type {Car[]} */
  const cars = []
  let token = ''
  try {
    do {
      const reply = await client.call(`/v1/catalogue/vehicles?page_size=200${token && `&page_token=${encodeURIComponent(token)}`}`)
      for (const { name = '', text = '' } of reply.vehicles ?? []) cars.push({ id: name.replace('vehicles/', ''), label: text })
      token = reply.next_page_token ?? ''
    } while (token)
  } catch {
    return []
  }
  return cars
}
