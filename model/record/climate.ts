import { entryKind } from './entry-kind.ts'
import { choice, instant, listOf, number, optional, reference, text, yesNo } from './fields.ts'

export const airRead = entryKind({
  kind: 'air-read',
  title: 'Air read',
  about: 'bay',
  fields: {
    airC: number('Air temperature', '°C', { hard: [-30, 50], soft: [-10, 35] }),
    rhPercent: optional(
      number('Relative humidity', '%', { hard: [0, 100], soft: [20, 98], help: '65, not 0.65' }),
    ),
    airSpeedMs: optional(number('Air speed at 0.5 m', 'm/s', { hard: [0, 25], soft: [0, 3] })),
    surfaceC: optional(number('Screed surface', '°C', { hard: [-30, 70], soft: [2, 35] })),
    baseC: optional(number('Base', '°C', { hard: [-30, 60], soft: [2, 35] })),
    openings: optional(choice('Doors and windows', { closed: 'Closed', open: 'Open' })),
    place: optional(choice('Where', { room: 'In the room', outside: 'Outside' })),
    instrument: optional(reference('Instrument', 'instrument')),
  },
})

export const screedTemperatureRead = entryKind({
  kind: 'screed-temperature-read',
  title: 'Screed temperature read',
  about: 'bay',
  fields: {
    screedC: number('Temperature in the screed', '°C', { hard: [-20, 65], soft: [2, 35] }),
    depthMm: optional(number('Depth', 'mm', { hard: [0, 200] })),
    position: optional(choice('Position', { middle: 'Middle', edge: 'Edge', door: 'At a door' })),
    instrument: optional(reference('Instrument', 'instrument')),
  },
})

/** What a logger column can hold: stored value → words and unit. */
export const seriesQuantities = {
  airC: { label: 'Air temperature', unit: '°C', hard: [-30, 50] },
  rhPercent: { label: 'Relative humidity', unit: '%', hard: [0, 100] },
  screedC: { label: 'Temperature in the screed', unit: '°C', hard: [-20, 65] },
  surfaceC: { label: 'Screed surface', unit: '°C', hard: [-30, 70] },
  outsideC: { label: 'Outside air', unit: '°C', hard: [-40, 50] },
  outsideRhPercent: { label: 'Outside relative humidity', unit: '%', hard: [0, 100] },
  airSpeedMs: { label: 'Air speed', unit: 'm/s', hard: [0, 40] },
  flowC: { label: 'Heating flow', unit: '°C', hard: [0, 90] },
} as const
export type SeriesQuantity = keyof typeof seriesQuantities

const quantityWords = Object.fromEntries(
  Object.entries(seriesQuantities).map(([name, { label }]) => [name, label]),
) as Record<SeriesQuantity, string>

/** One file of a logger is one entry; its readings stand in the series table and the original bytes are kept. */
export const loggerImported = entryKind({
  kind: 'logger-imported',
  title: 'Logger file read',
  about: 'bay',
  fields: {
    fileName: text('File'),
    sha256: text('SHA-256 of the file', { max: 64 }),
    bytes: number('Size', 'bytes', { hard: [1, 1e9], whole: true }),
    rows: number('Readings kept', '', { hard: [1, 1e8], whole: true }),
    refused: number('Rows refused', '', { hard: [0, 1e8], whole: true }),
    firstAt: instant('First reading'),
    lastAt: instant('Last reading'),
    readAs: text('How the file was read', { long: true }),
    columns: listOf('Columns', {
      column: text('Column in the file'),
      quantity: choice('Quantity', quantityWords),
      series: number('Series', '', { hard: [1, 1e9], whole: true }),
      readings: number('Readings', '', { hard: [0, 1e8], whole: true }),
      readingsSha256: text('SHA-256 of the readings', { max: 64 }),
    }),
    madeBy: optional(text('Origin, when the readings were not measured', { long: true })),
    instrument: optional(reference('Instrument', 'instrument')),
  },
})

export const wetEventNoted = entryKind({
  kind: 'wet-event-noted',
  title: 'Wetting noted',
  about: 'bay',
  fields: {
    what: choice('What', {
      leak: 'Leak',
      flood: 'Flood',
      'wash-down': 'Wash-down',
      rain: 'Rain',
      plaster: 'Wet plaster or paint nearby',
    }),
    note: optional(text('Note', { long: true })),
    stopped: optional(yesNo('Stopped')),
  },
})
