// The parts of the contract this page reads, as its JSON spells them. A test holds every field against the OpenAPI file.
// Every field may be absent: an empty value is left out on the wire.

export interface Money { currency_code?: string; minor_units?: string }
export interface PriceRange { low?: Money; likely?: Money; high?: Money; text?: string }
export interface Words { key?: string; text?: string }

export interface Caution {
  code?: string; gravity?: string; level?: string; title?: string; seen?: string; do_now?: string; risk?: string; ask?: string
  who_to_call?: string; emergency?: string; section?: string
}

export interface WorkingTerm { name?: string; number?: number; word?: string; unit?: string }
export interface WorkingStep { rule?: string; terms?: WorkingTerm[]; result?: WorkingTerm; source?: number; formula?: string; sentence?: string }
export interface WorkingSource { publication?: string; section?: string; cell?: string; status?: string }
export interface Working { steps?: WorkingStep[]; sources?: WorkingSource[] }

export interface BillLine {
  number?: number; kind?: string; code?: string; text?: string; quantity?: string; unit?: string; unit_price?: Money
  hours?: string; low?: Money; likely?: Money; high?: Money; why?: Words; from_rule?: string; trade?: string
}
export interface PermitLine { jurisdiction?: string; amount?: Money; needs?: string[]; working_days?: number[] }
export interface TaxLine { jurisdiction?: string; rate?: string; base?: Money; amount?: Money; included?: boolean }
export interface Bill {
  lines?: BillLine[]; discount?: Money; subtotal?: PriceRange; permit?: PermitLine; tax?: TaxLine; total?: PriceRange
  feet_assumed?: number; ten_more_feet?: Money; notes?: Words[]; working?: Working
  asides?: Aside[]; utility?: UtilityPart
}

export interface Aside { what?: Words; price?: PriceRange }
export interface UtilityPart { steps?: Words[]; weeks?: number[] }
export interface BillApart { what?: Words; bill?: Bill; together?: Money }
export interface ConductorSet { material?: string; size?: string; hots?: number; neutral_size?: string; grounding_size?: string; ampacity_amps?: number }
export interface CircuitRun { method?: string; feet?: number; trade_size?: string }
export interface DesignObjection { what?: Words; what_would_do?: Words; section?: string }
export interface CircuitDesign {
  outcome?: string; volts?: number; setting_amps?: number; breaker_amps?: number; breaker_poles?: number; breaker_gfci?: boolean
  ground_fault?: string; conductors?: ConductorSet; runs?: CircuitRun[]; length_feet?: number; drop_percent?: number
  termination?: string; receptacle?: string; disconnect_required?: boolean; enclosure?: string; burial_inches?: number
  objections?: DesignObjection[]; to_verify?: Words[]; working?: Working
}

export interface PanelFinding { verdict?: string; capacity_amps?: number; total_amps?: number; spare_amps?: number; measures?: PanelMeasure[]; notes?: Words[]; working?: Working }
export interface PanelMeasure { kind?: string; what?: Words; section?: string }
export interface ChargingTimes {
  wall_kw?: number; volts?: number; amps?: number; usual_day_hours?: number; hard_day_hours?: number; window_hours?: number
  miles_per_hour?: number; hours_20_to_80?: number
}
export interface LengthAssumed { feet?: number; basis?: string; ten_more_feet?: Money; text?: string }
export interface Verification { path?: string; what?: Words; otherwise?: Words }
export interface Option {
  id?: string; roles?: string[]; level?: string; way?: string; title?: Words; why?: Words; what_would_change?: Words
  setting_amps?: number; volts?: number; breaker_amps?: number; managed?: boolean; setpoint_amps?: number; price?: PriceRange
  includes?: Words[]; apart?: BillApart[]; flips?: Words[]; feeder?: CircuitDesign
  unpriced?: Words[]; verdict?: string; standing?: string; charging?: ChargingTimes; circuit?: CircuitDesign; panel?: PanelFinding
  bill?: Bill; length?: LengthAssumed; cautions?: Caution[]; to_verify?: Verification[]; safe_first?: Words[]; working?: Working
}
export interface Assumption { path?: string; value?: string; basis?: string; text?: string; decides?: boolean; swing?: Money; question?: string }
export interface Mover { path?: string; swing?: Money; text?: string }
export interface Contradiction { code?: string; paths?: string[]; text?: string; halts?: boolean }
export interface LostWay { title?: Words; why?: Words; price?: PriceRange; unpriced?: Words[]; apart?: BillApart[]; asides?: Aside[] }
export interface EditionInForce { text?: string; jurisdiction?: string; assumed?: boolean }
export interface Quote {
  name?: string; reference?: string; standing?: string; standing_reasons?: Words[]; headline?: Words; as_of_date?: string
  valid_until_date?: string; expired_book?: Words; edition?: EditionInForce; fingerprint?: string; options?: Option[]; lost?: LostWay[]
  cautions?: Caution[]; to_verify?: Verification[]; assumptions?: Assumption[]; movers?: Mover[]; contradictions?: Contradiction[]
  notices?: Words[]; band?: PriceRange; demo?: boolean; working?: Working
}

export interface NumberLimits { unit?: string; low?: number; high?: number; step?: number; unit_text?: string }
export interface Choice { id?: string; text?: string; face?: string; picture?: string; enter?: NumberLimits }
export interface Question {
  id?: string; kind?: string; text?: string; why?: string; find?: string[]; choices?: Choice[]; limits?: NumberLimits[]; sets?: string[]; block?: string
}
export interface QuestionTree { revision?: string; questions?: Question[] }
export interface Turn { question?: Question; chosen?: string[]; lead_in?: Words; answered?: number; left?: number }
export interface Chip { path?: string; label?: string; value?: string; state?: string; question?: string; source?: string }
export interface LogEntry { id?: string; question?: string; question_text?: string; answer_text?: string; state?: string }
export interface Band { revision?: string; price?: PriceRange; sentence?: Words; leading_option?: string; leading_title?: Words; movers?: Mover[]; standing?: string }
export interface Session {
  name?: string; revision?: string; turn?: Turn; chips?: Chip[]; entries?: LogEntry[]; contradictions?: Contradiction[]; cautions?: Caution[]
  halted?: boolean; halt?: Words; band?: Band
}
export interface NumberAnswer { value?: number; unit?: string; high?: number; about?: boolean }
export interface Answer {
  question?: string; choice?: string; choices?: { ids?: string[] }; number?: NumberAnswer; hour?: number; text?: string; unsure?: {}; skip?: {}
}
export interface CatalogueVehicle { name?: string; text?: string }
