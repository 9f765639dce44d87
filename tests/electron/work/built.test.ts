import { existsSync, symlinkSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { build } from 'esbuild'
import { describe, expect, it, onTestFinished } from 'vitest'
import { closeRecord } from '#db/index.ts'
import type * as Pool from '#electron/work/pool.ts'
import { forCommonJs } from '#scripts/build.ts'
import { oneBay } from '../one-bay.ts'
import { tempFolder } from '../temp-folder.ts'

const root = fileURLToPath(new URL('../../..', import.meta.url))

describe('worker threads of the built program', () => {
  it('WRK-9: bundled as JavaScript, the pool finds its worker beside it and the worker does its jobs', async () => {
    const folder = tempFolder()
    // The one package that stays outside the bundle is found where a package manager puts it.
    symlinkSync(join(root, 'node_modules'), join(folder, 'node_modules'))
    await build({
      absWorkingDir: root,
      entryPoints: { pool: 'electron/work/pool.ts', worker: 'electron/work/worker.ts' },
      outdir: join(folder, 'shell'),
      bundle: true,
      platform: 'node',
      format: 'esm',
      target: 'node24',
      banner: { js: forCommonJs },
      external: ['better-sqlite3', 'sharp'],
      logLevel: 'error',
    })
    expect(existsSync(join(folder, 'shell', 'worker.js'))).toBe(true)
    const built = pathToFileURL(join(folder, 'shell', 'pool.js')).href
    const { startWorkers } = (await import(/* @vite-ignore */ built)) as typeof Pool
    const workers = startWorkers({ size: 1 })
    onTestFinished(() => workers.close())
    const site = oneBay(folder)
    onTestFinished(() => closeRecord(site.record))
    const report = await workers.run('verify record', { recordFile: site.file, now: Date.UTC(2026, 10, 25) })
    expect(report).toMatchObject({ ok: true, entries: 5 })
    const asOf = Date.UTC(2026, 1, 1)
    const { forecast } = await workers.run('forecast bay', { recordFile: site.file, bay: site.bay, asOf })
    expect(forecast.missing.join(' ')).toMatch(/When the bay was laid/)
    const about = { recordFile: site.file, project: site.project, bays: [site.bay], asOf, forecasts: [] }
    const page = await workers.run('make report file', { ...about, kind: 'release' })
    expect(Buffer.from(page).toString('latin1', 0, 8)).toBe('%PDF-1.7')
    const book = await workers.run('make report file', { ...about, kind: 'workbook' })
    expect(Buffer.from(book).toString('latin1', 0, 2)).toBe('PK')
  })
})
