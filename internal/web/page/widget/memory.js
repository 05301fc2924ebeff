// What survives a reload and the back button: which session this tab holds, and a write that may not have arrived.
// It lies in the tab's own storage, never in an address, and is gone when the tab is closed.

/** @typedef {{path: string, body: any}} Pending a write with its request id, to be sent again as it was */
/** @typedef {{name?: string, secret?: string, create?: string, pending?: Pending, quote?: string, chosen?: string}} Held */

/** The memory of one tab for one shop. */
export class Memory {
  /** @param {string} shop */
  constructor(shop) {
    this.key = `daybreak:${shop}`
    /** @type {Held} */
    this.held = this.load()
  }

  /** @returns {Held} */
  load() {
    try {
      return JSON.parse(sessionStorage.getItem(this.key) ?? '{}')
    } catch {
      return {}
    }
  }

  /** @param {Held} change */
  keep(change) {
    this.held = { ...this.held, ...change }
    try {
      sessionStorage.setItem(this.key, JSON.stringify(this.held))
    } catch {
      // A browser that keeps nothing still holds the conversation until it is reloaded.
    }
  }

  forget() {
    this.held = {}
    try {
      sessionStorage.removeItem(this.key)
    } catch {
      // There was nothing to remove.
    }
  }
}
