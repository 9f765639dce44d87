/** Words of every chart. */
export const chartsWords = {
  asTable: 'As a table',
  asChart: 'As a chart',
  savePng: 'Save PNG',
  saveCsv: 'Save CSV',
  pictureFailed: 'The picture could not be made. Save the table instead, or try again.',
  rows: (shown: string, all: string) => `The first ${shown} of ${all} rows; the saved table has them all.`,
  noRows: 'Nothing to list yet.',
} as const
