import * as bay from './bay.ts'
import * as climate from './climate.ts'
import * as curing from './curing.ts'
import * as devices from './devices.ts'
import * as faults from './faults.ts'
import type { BodyOfFields } from './fields.ts'
import * as mixing from './mixing.ts'
import * as moisture from './moisture.ts'
import * as people from './people.ts'
import * as photos from './photos.ts'
import * as project from './project.ts'
import * as testing from './testing.ts'

/** Every kind of entry that can be recorded, by its name in the ledger. */
export const kinds = {
  'project-opened': project.projectOpened,
  'floor-added': project.floorAdded,
  'zone-added': project.zoneAdded,
  'weather-forecast-noted': project.weatherForecast,
  'bay-planned': bay.bayPlanned,
  'base-surveyed': bay.baseSurveyed,
  'edge-strip-fitted': bay.edgeStripFitted,
  'pipes-pressure-tested': bay.pipesTested,
  'lift-laid': bay.liftLaid,
  'bay-finished': bay.bayFinished,
  'thickness-measured': bay.thicknessMeasured,
  'joint-formed': bay.jointFormed,
  'covering-laid': bay.coveringLaid,
  'batch-mixed': mixing.batchMixed,
  'material-delivered': mixing.materialDelivered,
  'air-read': climate.airRead,
  'screed-temperature-read': climate.screedTemperatureRead,
  'logger-imported': climate.loggerImported,
  'wet-event-noted': climate.wetEventNoted,
  'sheet-on': curing.sheetOn,
  'sheet-off': curing.sheetOff,
  'protection-on': curing.protectionOn,
  'protection-off': curing.protectionOff,
  'traffic-seen': curing.trafficSeen,
  'no-traffic-confirmed': curing.noTrafficConfirmed,
  'heating-noted': curing.heatingNoted,
  'moisture-read': moisture.moistureRead,
  'soundness-tested': testing.soundnessTested,
  'surface-tested': testing.surfaceTested,
  'regularity-checked': testing.regularityChecked,
  'level-checked': testing.levelChecked,
  'defect-found': testing.defectFound,
  'defect-closed': testing.defectClosed,
  'crack-gauged': faults.crackGauged,
  'defect-measured': faults.defectMeasured,
  'fault-evidence-noted': faults.faultEvidenceNoted,
  'cause-named': faults.causeNamed,
  'repair-done': faults.repairDone,
  'repair-retested': faults.repairRetested,
  'evidence-frozen': faults.evidenceFrozen,
  'repair-rates-set': faults.repairRatesSet,
  'cause-weights-set': faults.causeWeightsSet,
  'instrument-added': testing.instrumentAdded,
  'instrument-checked': testing.instrumentChecked,
  'person-added': people.personAdded,
  'pin-set': people.pinSet,
  'alert-answered': people.alertAnswered,
  'hold-point-released': people.holdPointReleased,
  'nonconformance-raised': people.nonconformanceRaised,
  'nonconformance-closed': people.nonconformanceClosed,
  'bay-decided': people.bayDecided,
  'photo-added': photos.photoAdded,
  'photo-marked': photos.photoMarked,
  'device-key-published': devices.deviceKeyPublished,
  'entry-withdrawn': people.entryWithdrawn,
} as const

export type KindName = keyof typeof kinds
export type BodyOf<K extends KindName> = BodyOfFields<(typeof kinds)[K]['fields']>
export const kindNames = Object.keys(kinds) as KindName[]

export function isKindName(name: string): name is KindName {
  return Object.hasOwn(kinds, name)
}
