import { describe, expect, it, onTestFinished } from 'vitest'
import { bayStory, closeRecord } from '#db/index.ts'
import { startWorkers } from '#electron/work/pool.ts'
import { forecastOfStory } from '#model/drying/index.ts'
import { oneBay } from '../one-bay.ts'
import { tempFolder } from '../temp-folder.ts'

const day = 86_400_000
const laid = Date.UTC(2026, 0, 6, 15)
const asOf = laid + 20 * day

function layBay() {
  const site = oneBay(tempFolder())
  onTestFinished(() => closeRecord(site.record))
  site.note('bay-finished', laid, {
    startedAt: new Date(laid - 4 * 3_600_000).toISOString(),
    finish: 'float',
  })
  site.note('sheet-on', laid + 3_600_000, { material: 'polyethylene', coveredPercent: 100, edgesHeld: true })
  site.note('sheet-off', laid + 7 * day, { why: 'end of curing' })
  for (let i = 1; i <= 40; i++) site.note('air-read', laid + (i * day) / 2, { airC: 18, rhPercent: 55 })
  return site
}

describe('forecast on a worker thread', () => {
  it('FOR-1: the thread reads the record itself and foretells what the model foretells from the story', async () => {
    const site = layBay()
    const workers = startWorkers({ size: 1 })
    onTestFinished(() => workers.close())
    const told: number[] = []
    const made = await workers.run(
      'forecast bay',
      { recordFile: site.file, bay: site.bay, asOf },
      { onProgress: (done, of) => told.push(done / of) },
    )
    expect(told.at(-1)).toBe(1)
    const story = bayStory(site.record.read, site.bay)
    expect(made.forecast).toEqual(forecastOfStory(story, { covering: 'vinyl', asOf }))
    expect(made.forecast.missing).toEqual([])
    expect(Date.parse(made.forecast.p50!)).toBeGreaterThan(asOf)
    expect(made.project).toBe(site.project)
  })
})
