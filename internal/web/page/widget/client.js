// Talking to the service. Every write carries a request id, so that sending it twice is the same as sending it once.

/** What the service said no with, or that it could not be reached at all. */
export class ServiceError extends Error {
  /** @param {number} status 0 when it was not reached @param {string} message @param {string} reason @param {string} field */
  constructor(status, message, reason = '', field = '') {
    super(message)
    this.status = status
    this.reason = reason
    this.field = field
  }
  get unreached() { return this.status === 0 || this.status >= 500 }
  get conflict() { return this.status === 409 }
  get gone() { return this.status === 404 || this.status === 401 || this.status === 403 }
  get busy() { return this.status === 429 }
}

/** @typedef {{secret?: string, body?: object, method?: string}} Call */

/** One service at one address. */
export class Client {
  /** @param {string} base address without a slash at its end; empty for the page's own @param {string} [key] browser key */
  constructor(base, key = '') {
    this.base = base
    this.key = key
  }

  /**
   * Calls one method and gives its reply.
   * @param {string} path @param {Call} [call] @returns {Promise<any>}
   */
  async call(path, call = {}) {
    const response = await this.send(path, call)
    const text = await response.text().catch(() => '')
    const reply = parse(text)
    if (response.ok && reply) return reply
    throw refusal(response.status, reply)
  }

  /** @param {string} path @param {Call} call */
  async send(path, { secret, body, method }) {
    /** @type {Record<string, string>} */
    const headers = { accept: 'application/json' }
    if (body) headers['content-type'] = 'application/json'
    if (secret) headers['daybreak-session'] = secret
    if (this.key) headers['daybreak-key'] = this.key
    try {
      return await fetch(this.base + path, {
        method: method ?? (body ? 'POST' : 'GET'), headers, cache: 'no-store', credentials: 'omit', referrerPolicy: 'no-referrer',
        body: body ? JSON.stringify(body) : undefined,
      })
    } catch {
      throw new ServiceError(0, '')
    }
  }
}

/** @param {string} text @returns {any} null when it is not JSON */
function parse(text) {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}

/** @param {number} status @param {any} reply an error of the contract: message and typed details */
function refusal(status, reply) {
  const details = /** @type {any[]} */ (reply?.details ?? [])
  const of = (/** @type {string} */ type) => details.find((detail) => String(detail['@type']).endsWith(type))
  const violation = of('BadRequest')?.field_violations?.[0] ?? of('BadRequest')?.fieldViolations?.[0]
  const message = of('LocalizedMessage')?.message ?? violation?.description ?? reply?.message ?? ''
  return new ServiceError(status, message, of('ErrorInfo')?.reason ?? '', violation?.field ?? '')
}
