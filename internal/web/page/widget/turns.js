// The back button, where the page lets it: one history entry a turn, all at the same address, and nothing of the session in it.

/** Turns of the conversation as entries of the browser's history. */
export class Turns {
  /** @param {(turn: number) => void} revisit called with the number of the turn that was come back to */
  constructor(revisit) {
    this.at = Number(history.state?.daybreakTurn ?? 0)
    addEventListener('popstate', (event) => {
      const turn = event.state?.daybreakTurn
      this.at = Number(turn ?? 0)
      revisit(this.at)
    })
  }

  /** The conversation has this many answers now. @param {number} turn */
  mark(turn) {
    if (turn === this.at) return
    const state = { ...history.state, daybreakTurn: turn }
    if (turn > this.at) history.pushState(state, '')
    else history.replaceState(state, '')
    this.at = turn
  }
}
