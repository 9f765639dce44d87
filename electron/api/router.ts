import * as audit from './audit.ts'
import { calls } from './base.ts'
import * as bays from './bays.ts'
import * as bundles from './bundles.ts'
import * as faults from './faults.ts'
import { forecast } from './forecast.ts'
import * as host from './host.ts'
import * as imports from './imports.ts'
import * as people from './people.ts'
import * as photos from './photos.ts'
import * as projects from './projects.ts'
import * as record from './record.ts'
import * as recovery from './recovery.ts'
import * as reports from './reports.ts'
import * as ways from './ways.ts'

/** Answers every call of the contract; the same for both hosts. */
export const router = calls.router({
  audit,
  bays: { ...bays, forecast },
  bundles,
  faults,
  host,
  imports,
  people,
  photos,
  projects,
  record,
  recovery,
  reports,
  ways,
})
