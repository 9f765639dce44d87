import type { CheckedEntry } from '#model/record/entry.ts'
import { day, entry, hour, iso, morning, nextId, type Site, sampleBody } from './site.ts'

/** One entry of every kind that can be appended, in an order in which they can have happened. */
export function everyKind(site: Site): CheckedEntry[] {
  const defect = nextId()
  const diagnosis = nextId()
  const repair = nextId()
  const raised = nextId()
  const air = nextId()
  const photo = nextId()
  const later = (kind: Parameters<typeof entry>[1], hours: number, body?: Record<string, unknown>) =>
    entry(site, kind, { at: morning + hours * hour, ...(body === undefined ? {} : { body }) })
  return [
    later('weather-forecast-noted', 0),
    later('base-surveyed', 0),
    later('edge-strip-fitted', 0),
    later('pipes-pressure-tested', 0),
    later('material-delivered', 0),
    later('batch-mixed', 0),
    later('lift-laid', 1, {
      ...sampleBody(site, 'lift-laid'),
      startedAt: iso(morning),
      finishedAt: iso(morning + hour),
    }),
    later('thickness-measured', 1),
    later('joint-formed', 1),
    later('bay-finished', 2),
    later('sheet-on', 3),
    later('protection-on', 3, { what: 'boards' }),
    entry(site, 'air-read', { id: air, at: morning + 3 * hour }),
    later('screed-temperature-read', 3),
    later('wet-event-noted', 3),
    later('traffic-seen', 4),
    later('no-traffic-confirmed', 4),
    later('sheet-off', 8),
    later('protection-off', 8, { what: 'boards' }),
    later('heating-noted', 9, { state: 'running', flowC: 25 }),
    later('heating-noted', 10, { state: 'off' }),
    later('moisture-read', 11),
    later('soundness-tested', 11),
    later('surface-tested', 11),
    later('regularity-checked', 11),
    later('level-checked', 11),
    entry(site, 'defect-found', { id: defect, at: morning + 12 * hour }),
    later('repair-rates-set', 12),
    later('cause-weights-set', 12),
    later('crack-gauged', 12, { ...sampleBody(site, 'crack-gauged'), defect }),
    later('defect-measured', 12, { ...sampleBody(site, 'defect-measured'), defect }),
    later('fault-evidence-noted', 12, { ...sampleBody(site, 'fault-evidence-noted'), defect }),
    entry(site, 'cause-named', {
      id: diagnosis,
      at: morning + 12 * hour,
      body: { ...sampleBody(site, 'cause-named'), defects: [{ defect }] },
    }),
    entry(site, 'repair-done', {
      id: repair,
      at: morning + 13 * hour,
      body: { ...sampleBody(site, 'repair-done'), defect, diagnosis },
    }),
    later('repair-retested', 13, { ...sampleBody(site, 'repair-retested'), repair }),
    later('evidence-frozen', 13, { ...sampleBody(site, 'evidence-frozen'), defect }),
    later('defect-closed', 13, { ...sampleBody(site, 'defect-closed'), defect }),
    later('instrument-checked', 13),
    later('pin-set', 13),
    later('alert-answered', 13),
    later('hold-point-released', 13),
    entry(site, 'nonconformance-raised', { id: raised, at: morning + 13 * hour }),
    later('nonconformance-closed', 14, { ...sampleBody(site, 'nonconformance-closed'), raised }),
    entry(site, 'photo-added', { id: photo, at: morning + 14 * hour }),
    later('photo-marked', 14, { ...sampleBody(site, 'photo-marked'), photo }),
    later('bay-decided', 14),
    later('covering-laid', 15),
    later('device-key-published', 15),
    entry(site, 'entry-withdrawn', { at: morning + day, corrects: air, reason: 'read outside' }),
  ]
}
