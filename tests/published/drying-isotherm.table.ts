import { tableOf } from '#model/drying/materials.ts'
import { waterAt } from '#model/drying/tables.ts'
import { earlierProgram, type ScreedName, screeds } from './drying-runs.ts'
import { type PublishedRow, publishedTable } from './table.ts'

type Input = { screed: ScreedName; h: number }

const humidities = [0.5, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95, 0.98]
const printed: Record<ScreedName, number[]> = {
  screed: [1.93, 2.25, 2.45, 2.67, 2.93, 3.23, 3.61, 4.11, 5.05, 6.44],
  dense: [1.47, 1.69, 1.81, 1.95, 2.11, 2.29, 2.51, 2.77, 3.17, 3.66],
  sulfate: [0.17, 0.19, 0.21, 0.22, 0.24, 0.25, 0.27, 0.3, 0.59, 2.07],
}

export default publishedTable<Input>({
  title: 'drying: water held at a pore humidity',
  unit: 'mass %',
  calculate: ({ screed, h }) =>
    (100 * waterAt(tableOf(screeds[screed]), h)) / screeds[screed].constants.densityKgM3.value,
  rows: (Object.keys(printed) as ScreedName[]).flatMap((screed) =>
    printed[screed].map(
      (expected, i): PublishedRow<Input> => ({
        name: `${screed} at ${humidities[i]}`,
        input: { screed, h: humidities[i]! },
        expected,
        tolerance: 0.011,
        reason: 'printed to two places, capillary constants rounded',
        ...earlierProgram,
      }),
    ),
  ),
})
