import { auditWords } from './words/audit.ts'
import { bayWords } from './words/bay.ts'
import { bundleWords } from './words/bundle.ts'
import { cautionWords } from './words/cautions.ts'
import { chartsWords } from './words/charts.ts'
import { entriesWords } from './words/entries.ts'
import { faultsWords } from './words/faults.ts'
import { floorsWords } from './words/floors.ts'
import { formWords } from './words/form.ts'
import { handoverWords } from './words/handover.ts'
import { importWords } from './words/import.ts'
import { liveWords } from './words/live.ts'
import { readyWords } from './words/ready.ts'
import { recordWords } from './words/record.ts'
import { recoveryWords } from './words/recovery.ts'
import { setUpWords } from './words/set-up.ts'
import { shellWords } from './words/shell.ts'
import { todayWords } from './words/today.ts'
import { troubleWords } from './words/trouble.ts'
import { waysWords } from './words/ways.ts'

/**
 * Every sentence of the screens, in one object, so that a second language is a second object. Words of the record
 * (titles, labels, options) stand with their kind in `model/record` and are not repeated here.
 */
export const words = {
  ...shellWords,
  trouble: troubleWords,
  form: formWords,
  live: liveWords,
  today: todayWords,
  audit: auditWords,
  bundle: bundleWords,
  entries: entriesWords,
  imports: importWords,
  setUp: setUpWords,
  recovery: recoveryWords,
  record: recordWords,
  cautions: cautionWords,
  faults: faultsWords,
  handover: handoverWords,
  floors: floorsWords,
  bay: bayWords,
  ready: readyWords,
  charts: chartsWords,
  ways: waysWords,
} as const
