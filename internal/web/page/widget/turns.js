// The back button, where the page lets it: one history entry a turn, all at the same address, and nothing of the session in it.

/** Turns of the conversation as entries of the browser's history. */
export class Turns {
  /** @param {(turn: number) => void} revisit called with the number of the turn that was come back to */
  constructor(revisit) {
    this.count = 0
    addEventListener('popstate', (event) => revisit(Number(event.state?.daybreakTurn ?? 0)))
  }

  /** The conversation was found with this many answers. @param {number} count */
  found(count) {
    this.count = count
  }

  /** The conversation has moved to this many answers. Going back to one and leaving it again is no move. @param {number} count */
  mark(count) {
    if (count === this.count) return
    const state = { ...history.state, daybreakTurn: count }
    if (count > this.count) history.pushState(state, '')
    else history.replaceState(state, '')
    this.count = count
  }
}
