import { describe, expect, test } from 'vitest'
import { makeColumn } from '#model/drying/column.ts'
import { noExposure } from '#model/drying/exposure.ts'
import { heatedLayer, PIPE_TRANSFER, ROOM_TRANSFER, warmFor } from '#model/drying/heat.ts'
import { materials, simulateDrying } from '#model/drying/index.ts'
import { tableOf } from '#model/drying/materials.ts'
import { DAY_MS, LAID_MS, ordinaryRun } from './bay.ts'

const heatFrom = (day: number, flowC: number | null) => ({ at: LAID_MS + day * DAY_MS, flowC })

describe('DRY-7: heated layers', () => {
  test('at rest the temperature is a straight line from pipe to face, as three resistances in a row say', () => {
    const { cementSandScreed } = materials
    const column = makeColumn(tableOf(cementSandScreed), 0.065, 1, 40)
    column.h.fill(0.8)
    const layer = heatedLayer(column, cementSandScreed, 20)
    for (let hour = 0; hour < 24 * 14; hour++) warmFor(layer, 3600, 20, 45, column, noExposure())
    const conductivity = cementSandScreed.constants.thermalConductivity.value
    const flux = (45 - 20) / (1 / ROOM_TRANSFER + 0.065 / conductivity + 1 / PIPE_TRANSFER)
    column.depthM.forEach((depth, i) => {
      expect(layer.tempC[i]).toBeCloseTo(20 + flux / ROOM_TRANSFER + (flux * depth) / conductivity, 6)
    })
  })
  test('without warm water the layer dries as an unheated one', () => {
    const plain = simulateDrying(ordinaryRun())
    const atRoom = simulateDrying(ordinaryRun({ heating: [heatFrom(21, 20)] }))
    const off = simulateDrying(ordinaryRun({ heating: [heatFrom(21, null)] }))
    const empty = simulateDrying(ordinaryRun({ heating: [] }))
    plain.rhAtFortyPercent.forEach((rh, i) => {
      expect(atRoom.rhAtFortyPercent[i]).toBeCloseTo(rh, 8)
      expect(off.rhAtFortyPercent[i]).toBeCloseTo(rh, 8)
    })
    expect(empty.rhAtFortyPercent).toEqual(plain.rhAtFortyPercent)
  })
  test('mass closes while temperature drives vapour through the layer', () => {
    const run = simulateDrying(
      ordinaryRun({ heating: [heatFrom(21, 25), heatFrom(24, 55), heatFrom(28, null), heatFrom(40, 45)] }),
    )
    expect(Math.abs(run.balanceErrorKgPerM2)).toBeLessThan(1e-9)
    expect(
      Math.abs(
        simulateDrying(
          ordinaryRun({
            faces: 1,
            thicknessMm: 110,
            material: materials.calciumSulfateScreed,
            heating: [heatFrom(7, 50)],
          }),
        ).balanceErrorKgPerM2,
      ),
    ).toBeLessThan(1e-9)
  })
  test('heat dries sooner, and the base is then drier than an unheated one', () => {
    const end = { endAt: LAID_MS + 45 * DAY_MS }
    const warm = simulateDrying(ordinaryRun({ ...end, heating: [heatFrom(21, 45)] }))
    const cold = simulateDrying(ordinaryRun(end))
    expect(warm.rhAtFortyPercent.at(-1)).toBeLessThan(cold.rhAtFortyPercent.at(-1)! - 5)
    expect(warm.profile(LAID_MS + 45 * DAY_MS).rhPercent.at(-1)).toBeLessThan(
      cold.profile(LAID_MS + 45 * DAY_MS).rhPercent.at(-1)!,
    )
    expect(warm.screedBaseC.at(-1)).toBeGreaterThan(warm.screedTopC.at(-1)!)
  })
  test('after the circuit is off the layer comes back to the room within two days', () => {
    const run = simulateDrying(
      ordinaryRun({ heating: [heatFrom(21, 45), heatFrom(30, null)], endAt: LAID_MS + 32 * DAY_MS }),
    )
    expect(run.screedTopC.at(-1)).toBeCloseTo(20, 1)
    expect(run.screedBaseC.at(-1)).toBeCloseTo(20, 1)
  })
  test('pipes and two drying faces are refused: the field is named', () => {
    expect(() => simulateDrying(ordinaryRun({ faces: 2, heating: [heatFrom(21, 45)] }))).toThrow(/heating/)
    expect(() => simulateDrying(ordinaryRun({ heating: [heatFrom(21, 80)] }))).toThrow(/heating\[0\]\.flowC/)
  })
})
