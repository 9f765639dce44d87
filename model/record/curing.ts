import { entryKind } from './entry-kind.ts'
import { choice, number, optional, text, yesNo } from './fields.ts'
import { protections, trafficClasses } from './words.ts'

export const sheetOn = entryKind({
  kind: 'sheet-on',
  title: 'Sheet laid',
  about: 'bay',
  fields: {
    material: choice('Cover', {
      polyethylene: 'Polyethylene sheet',
      'damp hessian': 'Damp hessian under sheet',
      compound: 'Curing compound',
    }),
    coveredPercent: number('Covered', '%', { hard: [0, 100], soft: [95, 100] }),
    edgesHeld: yesNo('Edges and laps held down'),
    lapMm: optional(number('Laps', 'mm', { hard: [0, 2000], soft: [100, 500] })),
    note: optional(text('Note', { long: true })),
  },
})

export const sheetOff = entryKind({
  kind: 'sheet-off',
  title: 'Sheet off',
  about: 'bay',
  fields: {
    why: choice('Why', {
      'end of curing': 'End of curing',
      lifted: 'Lifted for access',
      'blown off': 'Found blown off',
      damaged: 'Found damaged',
    }),
    note: optional(text('Note', { long: true })),
  },
})

export const protectionOn = entryKind({
  kind: 'protection-on',
  title: 'Protection put on',
  about: 'bay',
  fields: {
    what: choice('What', protections),
    planned: optional(yesNo('Planned, not yet done')),
    note: optional(text('Note', { long: true })),
  },
})

export const protectionOff = entryKind({
  kind: 'protection-off',
  title: 'Protection taken off',
  about: 'bay',
  fields: { what: choice('What', protections), note: optional(text('Note', { long: true })) },
})

export const trafficSeen = entryKind({
  kind: 'traffic-seen',
  title: 'Traffic seen',
  about: 'bay',
  fields: {
    traffic: choice('What', trafficClasses),
    massKg: optional(number('Mass', 'kg', { hard: [0, 20000], soft: [0, 150] })),
    contact: optional(choice('Contact', { spread: 'Spread', point: 'Point', wheel: 'Wheel' })),
    boards: yesNo('On boards'),
    authorisedBy: optional(text('Allowed by')),
    x: optional(number('x', 'm', { hard: [-1000, 1000] })),
    y: optional(number('y', 'm', { hard: [-1000, 1000] })),
    note: optional(text('Note', { long: true })),
  },
})

export const noTrafficConfirmed = entryKind({
  kind: 'no-traffic-confirmed',
  title: 'No traffic, confirmed',
  about: 'bay',
  fields: { heldBy: text('Who kept the keys or the barrier'), note: optional(text('Note', { long: true })) },
})

export const heatingNoted = entryKind({
  kind: 'heating-noted',
  title: 'Heating noted',
  about: 'zone',
  fields: {
    circuit: optional(text('Circuit')),
    state: choice('State', { running: 'Running', off: 'Off' }),
    flowC: optional(number('Flow', '°C', { hard: [5, 70], soft: [15, 55] })),
    returnC: optional(number('Return', '°C', { hard: [5, 70], soft: [15, 50] })),
    surfaceC: optional(number('Surface', '°C', { hard: [-10, 60], soft: [5, 35] })),
    pressureBar: optional(number('Pressure', 'bar', { hard: [0, 20], soft: [1, 6] })),
    step: optional(text('Step of the heating plan')),
  },
  problems: (body) =>
    body.state === 'running' && body.flowC === undefined
      ? [{ field: 'flowC', message: 'is needed while the heating runs' }]
      : [],
})
