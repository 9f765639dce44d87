import type { Construction, Covering, Screed, SymptomCode } from '../../record/words.ts'
import type { CauseCode } from '../causes.ts'
import type { DiagnosedCause, Movement } from '../shapes.ts'
import type { RateItem, RepairOptionId, StructuralSign } from '../words.ts'

export type RepairRule = 'R01' | 'R02' | 'R03' | 'R04' | 'R05' | 'R06' | 'R07' | 'R08' | 'R09' | 'R10' | 'R11'

export interface RateRange {
  low: number
  high: number
}

export interface RepairRates {
  basis: 'illustrative' | 'own'
  /** The entry that set them; null for those built in. */
  entry: string | null
  rates: Readonly<Record<RateItem, RateRange>>
  /** A day of delay; null when nobody said. */
  delayPerDay: number | null
  /** What it costs if the fault comes back; null when nobody said. */
  recurrenceCost: number | null
  /** Chance in a hundred that the fault comes back; our judgement until edited. */
  residualPercent: Readonly<Record<RepairOptionId, number>>
}

export interface RepairExtent {
  /** Area of the bay [m²]. */
  bayAreaM2: number
  areaM2?: number | null
  lengthM?: number | null
  /** Mean of five places or more [mm]. */
  widthMm?: number | null
  /** Depth to which the screed is weak; null when nobody opened it [mm]. */
  weakToMm?: number | null
  stepMm?: number | null
  hollowM2?: number | null
  /** It rocks or gives under foot. */
  rocks?: boolean | null
  /** A ring of tests around the weak part is sound. */
  boundaryProven?: boolean | null
  /** Pull-off of the ground surface [N/mm²]. */
  pullOffMPa?: number | null
  /** Patches in this bay, this one included. */
  patches?: number | null
}

export interface RepairQuestion {
  symptoms: readonly SymptomCode[]
  /** From the diagnosis, highest first. */
  causes: readonly Pick<DiagnosedCause, 'id' | 'probability' | 'band'>[]
  recordStrengthPercent: number | null
  /** What a person named; null while nobody did. "Not known, treated as …" counts as named. */
  causeNamed: CauseCode | 'unknown' | null
  /** Null: nobody said. A cause that may still be there counts as there. */
  causeRemoved: boolean | null
  extent: RepairExtent
  movement: Movement['verdict']
  /** The crack follows a line that a saw can follow; null: nobody said. */
  straight?: boolean | null
  whereJointBelongs?: boolean | null
  structuralSigns?: StructuralSign | null
  construction: Construction
  screed: Screed
  thicknessMm: number
  minThicknessMm?: number | null
  heated: boolean
  pipesLocated?: boolean | null
  covering: Covering | null
  soundnessCategory: 'A' | 'B' | 'C'
  soundness: 'pass' | 'fail' | 'not known'
  /** Moisture of the screed for resin. */
  moisture: 'dry' | 'wet' | 'not known'
  /** A leak or rising moisture that has not been stopped. */
  leakActive?: boolean | null
  /** The bay has ended drying; null: nobody can tell. */
  dryingEnded?: boolean | null
  /** A curing compound or sealer on the surface. */
  surfaceSealed?: boolean | null
  /** Resin reached the full weak depth in the trial, and the drop weight kept its limit; null: no trial. */
  trialPassed?: boolean | null
  programme?: { daysLeft?: number | null }
  /** Forecast days from laying until new screed keeps its limit, curing among them; the rule of thumb when null. */
  newScreedDays?: { p50: number; p90: number } | null
  /** Illustrative rates when left out. */
  rates?: RepairRates
}

export interface RepairDecision {
  rule: RepairRule | null
  outcome: 'stop: engineer' | 'tests first' | 'stop the source' | 'choose'
  because: string
  /** What to do before any option. */
  next: string | null
}

export interface Quantity {
  what: string
  amount: number
  unit: string
  /** The arithmetic, in words. */
  how: string
}

export interface RepairOption {
  option: RepairOptionId
  words: string
  verdict: 'allowed' | 'excluded' | 'measure first'
  /** True for "allowed" only. */
  feasible: boolean
  rule: RepairRule | null
  /** Why it fits; always there. */
  because: string
  excludedBecause?: string
  /** The test that decides; set for "measure first". */
  measure: string | null
  /** The rule that holds every option back (R01 to R03), beside the option's own reason; null when a repair may be chosen. */
  heldBy: RepairRule | null
  quantities: Quantity[]
  /** Null when a quantity is not known. In the project's currency. */
  cost: { low: number; high: number; assumptions: string[] } | null
  daysLost: { p50: number; p90: number; how: string } | null
  /** Chance that the fault comes back, tripled while its cause may still be there [%]. */
  residualPercent: number
  residualHow: string
  /** Works, delay and what a recurrence would cost; null while a part of it is not known. */
  wholeLife: { low: number; high: number; how: string } | null
  retest: string[]
  cautions: string[]
}
