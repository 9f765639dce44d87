import type { Why } from '../why.ts'
import { type BatchMasses, proportionsOf } from './batch.ts'

/** The sand ratio and the water ratio of a batch, each with what went into it. */
export function whyProportions(batch: BatchMasses): { sandPerCement: Why; waterCement: Why } {
  const { drySandKg, sandPerCement, waterCement } = proportionsOf(batch)
  const weighed = [
    { name: 'Cement', value: batch.cementKg, unit: 'kg' },
    { name: 'Damp sand', value: batch.dampSandKg, unit: 'kg' },
    { name: 'Moisture of the sand, on its dry mass', value: batch.sandMoisturePercent, unit: '%' },
    { name: 'Dry sand', value: drySandKg, unit: 'kg' },
  ]
  return {
    sandPerCement: {
      what: 'Sand for one part of cement',
      value: sandPerCement,
      unit: 'kg/kg',
      inputs: weighed,
      formula: 'dry sand / cement; dry sand = damp sand / (1 + moisture/100)',
      source: 'Batching by mass, BS 8204-1',
      provenance: 'quoted second-hand',
    },
    waterCement: {
      what: 'Water for one part of cement',
      value: waterCement,
      unit: 'kg/kg',
      inputs: [
        ...weighed,
        { name: 'Added water', value: batch.addedWaterKg, unit: 'kg' },
        { name: 'Water in the admixture', value: batch.admixtureWaterKg ?? 0, unit: 'kg' },
      ],
      formula: '(damp sand − dry sand + added water + admixture water) / cement',
      source: 'Total water, the water of the damp sand included',
      provenance: 'common practice',
    },
  }
}
