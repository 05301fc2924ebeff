// Every word of the page's own furniture. What concerns a household — questions, reasons, cautions, prices' reasons —
// comes from the service in the asked language and is shown as it stands; nothing here composes a sentence about a quote.

export const words = {
  title: 'Charging at home',
  demo: 'A demonstration. The town, the shop and the prices are invented.',
  licensed: 'This is an estimate for planning. A licensed electrician does the work, and the local inspector has the last word.',

  start: {
    heading: 'What will you need to charge at home?',
    lead: 'A few short questions give you a charging level, a circuit an electrician can build, and a price range.',
    unsure: 'You can say “I don’t know” to any of them. You can stop at any time and keep the price.',
    private: 'We do not ask for your name or your street.',
    go: 'Begin',
    again: 'Start over',
  },

  turn: {
    log: 'Conversation so far',
    earlier: (/** @type {number} */ n) => (n === 1 ? 'Show 1 earlier answer' : `Show ${n} earlier answers`),
    change: 'Change',
    unsure: 'I don’t know',
    skipped: 'Skipped',
    aside: 'not used now, kept',
    also: 'Also told',
    now: 'Now',
    keep: 'Keep my answer and go back',
  },

  question: {
    unsure: 'I don’t know',
    find: 'How to find out',
    why: 'Why we ask',
    change: 'Change an answer',
    skip: 'Skip this one',
    alarm: 'Heat, smell, marks or buzzing?',
    next: 'Continue',
    progress: (/** @type {number} */ answered, /** @type {number} */ left) => (answered === 0 ? '' : left > 0 ? `${answered} answered, about ${left} left` : `${answered} answered`),
    several: 'Pick all that are true.',
    fix: 'Fix: ',
    guess: 'Guess for now',
  },

  number: {
    less: (/** @type {string} */ by) => `${by} less`,
    more: (/** @type {string} */ by) => `${by} more`,
    unit: 'Unit',
    money: 'dollars',
    or: 'Or type it',
    it: 'it',
    about: 'A guess is fine. “About 40” and “15 to 20” work too.',
    needed: (/** @type {string} */ unit, /** @type {string} */ low, /** @type {string} */ high) =>
      `Enter ${unit} as a number from ${low} to ${high}.`,
  },

  hour: {
    label: 'Time',
    half: 'Morning or evening',
    am: 'AM',
    pm: 'PM',
    less: 'Half an hour earlier',
    more: 'Half an hour later',
    needed: 'Enter a time such as 6:30, then pick AM or PM.',
  },

  postal: {
    label: 'ZIP code',
    needed: (/** @type {number} */ typed) => `ZIP codes have 5 digits. You typed ${typed}.`,
  },

  vehicle: {
    label: 'Your car',
    hint: 'Type a size or a kind of car, then pick it from the list.',
    counted: (/** @type {number} */ n) => (n === 1 ? '1 car found.' : `${n} cars found.`),
    none: 'Not in our list. Pick “My car is not listed” and choose a size.',
    unlisted: 'My car is not listed',
    pick: 'Pick a car from the list, or say it is not listed.',
  },

  picture: {
    turn: 'Turn upside down',
    compare: 'Compare two',
    first: 'First drawing',
    second: 'Second drawing',
    same: 'Pick two different drawings.',
    look: 'Look at the number of openings first, then at the shape of each.',
    /** @type {Record<string, string>} what tells two outlets apart, by their two configurations in order of the alphabet */
    pairs: {
      '10-30 10-50': 'An L-shaped slot = 30 amps. Three straight slots = 50 amps.',
      '10-30 14-30': 'Three openings = the old kind, no ground. Four openings = the newer kind.',
      '10-30 TT-30': 'Third opening an L = 240 volts. Third opening round = 120 volts. Never adapt one to the other.',
      '10-50 14-50': 'Three openings = the old kind, no ground. Four openings = the newer kind.',
      '14-30 14-50': 'L-shaped slot = 30 amps. All slots straight = 50 amps.',
      '14-50 6-50': 'Three openings = 6-50. Four openings = 14-50.',
      '5-15 5-20': 'A slot like a T = 20 amps. Two plain slots = 15 amps.',
      '5-15 6-50': 'Size tells: the 6-50 face is about 2 inches across. A normal one is about half that.',
      '5-20 6-20': 'Slots in one line = 240 volts. Slots side by side = 120 volts.',
      '6-30 6-50': 'One L-shaped slot = 30 amps. Two straight slots = 50 amps.',
    },
  },

  alarm: {
    heading: 'What have you noticed?',
    lead: 'Look only. Do not touch or open anything. If you see smoke or flame, get out and call 911.',
    none: 'None of these',
  },

  sheet: {
    close: 'Close',
    found: 'I found it',
    guess: 'Guess for now',
    change: 'Which answer?',
    undo: 'Take back the last answer',
    nothing: 'There is no answer to change yet.',
  },

  chips: {
    heading: 'What we know',
    none: 'Nothing yet.',
    name: (/** @type {string} */ text, /** @type {string} */ state) => `${text}, ${state}. Change`,
    more: (/** @type {number} */ n) => `+ ${n} more`,
    fewer: 'Show fewer',
    found: (/** @type {number} */ n) => `Looked up or usual: ${n}`,
    told: 'told',
    looked_up: 'looked up',
    assumed: 'assumed',
    pending: 'waiting to send',
  },

  price: {
    heading: 'Price so far',
    none: 'A price shows after the first answer.',
    to: 'to',
    unpriced: 'No price for these answers yet.',
    stale: 'As of an earlier answer.',
    see: 'See the quote',
    lead: 'Leading so far',
    middle: 'Middle',
    halted: 'No price while something may be unsafe.',
  },

  result: {
    heading: 'Your quote',
    back: 'Go on answering',
    options: 'Your options',
    choose: 'Show this one',
    low: 'Low', likely: 'Likely', high: 'High',
    does: 'What it does',
    circuit: 'The circuit',
    cautions: 'Cautions',
    allCautions: (/** @type {number} */ n) => (n === 1 ? '1 caution' : `${n} cautions`),
    lines: 'Price lines',
    how: 'How we got this',
    wide: 'Range',
    total: 'Total, likely',
    tenFeet: 'Ten more feet',
    feet: 'Wire run assumed',
    assumed: 'We still guess at',
    answer: 'Answer it',
    taken: (/** @type {number} */ n) => `Taken as usual, and of little weight: ${n}`,
    verify: 'The electrician checks on site',
    standing: 'How firm this is',
    reference: 'Reference',
    fingerprint: 'Fingerprint',
    asOf: 'As of',
    until: 'Holds until',
    edition: 'Code edition',
    load: 'Room in the panel',
    none: 'No option can be shown yet.',
    movers: 'What would move the price most',
    lost: 'Other ways, and why they are not shown',
    safe: 'Put right first',
    working: 'Steps that belong to no single option',
    range: 'Over all that is still open',
    workings: 'How the numbers came about',
    workingPower: 'Power and time',
    workingCircuit: 'The circuit, step by step',
    workingPanel: 'Room in the panel, step by step',
    measures: 'What makes it fit',
    change: 'What would change this',
    flips: 'What would flip the panel verdict',
  },

  bill: {
    quantity: 'Quantity', hours: 'Hours', each: 'Each', rate: 'Rate', base: 'Taxed', by: 'Set by', days: 'Working days',
    permit: 'Permit and inspection', tax: 'Tax', taxIncluded: 'Tax, inside the prices', discount: 'Discount', opening: 'Before permit and tax',
    working: 'How the total came about', notes: 'What this price leaves out or rests on', unpriced: 'Not priced yet',
    includes: 'What is in this price too', apart: 'A bill of its own beside it', utility: 'What the utility and the inspector do, in turn',
  },
  does: {
    setting: 'Charging current', usual: 'A normal day takes', hard: 'A hard winter day takes', window: 'Plugged in at night',
    miles: 'Miles back in an hour',
  },
  circuit: {
    breaker: 'Breaker', poles: (/** @type {number} */ n) => (n === 1 ? '1 pole' : `${n} poles`), gfci: 'GFCI', wire: 'Conductors', neutral: 'Neutral', ground: 'Grounding conductor', method: 'Wiring',
    end: 'Ends in', enclosure: 'Enclosure type', drop: 'Voltage drop',
  },
  /** @type {Record<string, string>} */
  roles: { OPTION_ROLE_ENOUGH_FOR_NOW: 'Enough for now', OPTION_ROLE_BEST_FIT: 'Best fit', OPTION_ROLE_ROOM_TO_GROW: 'Room to grow' },
  /** @type {Record<string, string>} */
  standings: {
    STANDING_BALLPARK: 'Ballpark', STANDING_SUBJECT_TO_SITE_CHECK: 'Subject to site check', STANDING_READY_TO_BOOK: 'Ready to book', STANDING_HALTED: 'Halted',
  },
  /** @type {Record<string, string>} */
  verdicts: {
    VERDICT_FITS: 'Fits', VERDICT_TIGHT: 'Tight', VERDICT_ASK_AHJ: 'Ask the local inspector', VERDICT_DOES_NOT_FIT: 'Does not fit', VERDICT_NOT_NEEDED: 'No new load',
  },
  /** @type {Record<string, string>} */
  materials: { WIRE_MATERIAL_CU: 'copper', WIRE_MATERIAL_AL: 'aluminum' },
  /** @type {Record<string, string>} */
  methods: {
    WIRING_METHOD_NM_B: 'NM-B cable', WIRING_METHOD_THWN_2_IN_EMT: 'THWN-2 in EMT', WIRING_METHOD_THWN_2_IN_PVC: 'THWN-2 in PVC', WIRING_METHOD_OTHER: 'Another wiring method',
  },
  /** @type {Record<string, string>} */
  terminations: { TERMINATION_RECEPTACLE: 'Receptacle', TERMINATION_HARDWIRED: 'Wired in' },
  /** @type {Record<string, string>} how firmly a cited value is known */
  statuses: {
    SOURCE_STATUS_VERIFIED: 'verified', SOURCE_STATUS_VERIFIED_SECOND_HAND: 'verified second-hand', SOURCE_STATUS_FROM_MEMORY: 'from memory',
    SOURCE_STATUS_COMPUTED: 'computed', SOURCE_STATUS_ENGINEERING_JUDGEMENT: 'engineering judgement',
  },

  /** @type {Record<string, string>} */
  levels: { stop: 'Stop', put_right: 'Put right', take_care: 'Take care', to_check: 'To check' },
  caution: { seen: 'What was seen', why: 'Why', ask: 'What to ask', call: 'Who to call' },

  halt: {
    heading: 'Stop here first',
    aside: 'Answer the rest',
    see: 'See what this means for the quote',
    mistaken: 'That was a mistake. Change the answer',
  },

  net: {
    slow: 'Working out your price',
    slower: 'Still working. Your answers are safe.',
    fails: 'We could not reach the service. Nothing is lost. Try again.',
    again: 'Try again',
    conflict: 'Changed on another screen.',
    theirs: 'Theirs', yours: 'Yours',
    keep: 'Keep theirs', mine: 'Use mine',
    refreshed: 'This page now shows the newest answers. Answer again.',
    gone: 'This conversation has ended and its answers were removed. Begin again.',
    wait: 'Too many requests at once. Wait a moment, then try again.',
  },
}
