export const setUpWords = {
  parts: {
    project: 'Project',
    rules: 'Rules',
    places: 'Floors, zones and bays',
    people: 'People',
    instruments: 'Instruments',
    record: 'The record',
  },
} as const
