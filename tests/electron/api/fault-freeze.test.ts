// No measured values: that what was frozen stays what it was. SHA-256 by Node's own library.
import { createHash } from 'node:crypto'
import { appendFileSync, existsSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { safe } from '@orpc/client'
import { describe, expect, it } from 'vitest'
import { bringFrozenBack, saveFrozen } from '#db/backup-frozen.ts'
import { checkBundle } from '#db/bundle/take-in.ts'
import { closeRecord } from '#db/index.ts'
import type { BodyOf } from '#model/record/kinds.ts'
import { mint, oneBay } from '#tests/electron/one-bay.ts'
import { tempFolder } from '#tests/electron/temp-folder.ts'
import { all, served } from './served.ts'

const day = 24 * 3_600_000
const laid = Date.UTC(2026, 0, 12, 10)
const now = laid + 30 * day + 12_345

async function withFault() {
  const folder = tempFolder()
  const bay = oneBay(folder)
  bay.note('bay-finished', laid, {
    startedAt: new Date(laid - 4 * 3_600_000).toISOString(),
    finish: 'float',
  })
  const found = { symptom: 'S01', firstSeenOn: '2026-01-25', extent: 'part' } as const
  const defect = bay.note('defect-found', laid + 13 * day, found)
  closeRecord(bay.record)
  const { client, services } = await served(folder, () => now)
  const { project, person } = bay
  const asked = {
    entry: mint<'entry'>(),
    defect,
    project,
    person,
    bays: [bay.bay],
    reason: 'Claim of the flooring contractor',
  }
  return { ...bay, client, services, defect, asked, bundles: join(folder, 'bundles') }
}

const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex')

describe('FREEZE: the evidence of a fault', () => {
  it('FREEZE-1: a report and a good bundle are kept, and the entry names both with hash, time, bays and reason', async () => {
    const { client, asked, defect, bundles, bay } = await withFault()
    const events = await all(await client.faults.freeze(asked))
    expect(events.at(-1)).toEqual({ kind: 'done', entry: asked.entry })
    const { frozen } = await client.faults.page({ defect })
    expect(frozen).toHaveLength(1)
    const { body, person } = frozen[0]!
    expect(person).toBe(asked.person)
    expect(body).toMatchObject({
      defect,
      asOf: new Date(now).toISOString(),
      bays: [{ bay }],
      reason: asked.reason,
    })
    expect(body.entriesCount).toBeGreaterThanOrEqual(7)
    const { report } = await checkBundle(join(bundles, body.bundle!))
    expect(report).toMatchObject({ verdict: 'good', fingerprint: body.contentHash })
    const pdf = readFileSync(join(bundles, body.report!))
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-')
    expect(sha256(pdf)).toBe(body.reportHash)
    expect(readdirSync(bundles).filter((name) => name.endsWith('.part'))).toEqual([])

    const fetched = await client.faults.frozenFile({ entry: asked.entry, what: 'report' })
    expect(fetched.name).toBe(body.report)
    expect(sha256(new Uint8Array(await fetched.file.arrayBuffer()))).toBe(body.reportHash)
    const signed = await client.faults.frozenFile({ entry: asked.entry, what: 'bundle' })
    expect(signed.name).toBe(body.bundle)
    expect(signed.file.size).toBeGreaterThan(1000)
  })

  it('FREEZE-2: nothing is made twice, a later entry changes nothing, and a file that was changed or is gone is not handed out as the frozen one', async () => {
    const { client, asked, defect, bundles, project, person, bay } = await withFault()
    await all(await client.faults.freeze(asked))
    const files = () => readdirSync(bundles).map((name) => [name, sha256(readFileSync(join(bundles, name)))])
    const before = files()
    await all(await client.faults.freeze(asked))
    const note = { defect, evidence: 'E45', found: 'true', method: 'scratch' }
    await client.record.append({
      entries: [
        {
          id: mint<'entry'>(),
          project,
          subject: bay,
          kind: 'fault-evidence-noted',
          happenedAt: new Date(laid + 20 * day).toISOString(),
          zone: 'Europe/London',
          person,
          source: 'typed',
          body: note as BodyOf<'fault-evidence-noted'>,
          answers: [],
        },
      ],
    })
    expect(files()).toEqual(before)
    const { frozen } = await client.faults.page({ defect })
    expect(frozen).toHaveLength(1)
    const { body } = frozen[0]!
    const report = join(bundles, body.report!)
    appendFileSync(report, ' ')
    const changed = await safe(client.faults.frozenFile({ entry: asked.entry, what: 'report' }))
    expect(changed.error).toMatchObject({ code: 'INPUT_OUT_OF_RANGE' })
    expect(JSON.stringify(changed.error)).toMatch(/its SHA-256 differs/)
    rmSync(report)
    const gone = await safe(client.faults.frozenFile({ entry: asked.entry, what: 'report' }))
    expect(gone.error).toMatchObject({ code: 'NOT_FOUND' })
    const unknown = await safe(client.faults.frozenFile({ entry: defect, what: 'report' }))
    expect(unknown.error).toMatchObject({ code: 'NOT_FOUND' })
  })

  it('FREEZE-3: without the bay of the fault, without a reason or for another entry than a defect nothing is made', async () => {
    const { client, asked, bundles } = await withFault()
    const refused = [
      { ...asked, bays: [mint<'bay'>()] },
      { ...asked, reason: '  ' },
      { ...asked, defect: mint<'entry'>() },
    ]
    for (const input of refused) {
      const { error } = await safe(client.faults.freeze(input as typeof asked).then(all))
      expect(error, JSON.stringify(input)).not.toBeNull()
    }
    expect(existsSync(bundles) ? readdirSync(bundles) : []).toEqual([])
  })

  it('FREEZE-4: a report that was made is fetched by the call that follows', async () => {
    const { client, project, bay } = await withFault()
    const events = await all(
      await client.reports.make({ project, kind: 'story', bays: [bay], estimates: false }),
    )
    const done = events.at(-1)
    if (done?.kind !== 'done') throw new Error('no file was made')
    const { file } = await client.reports.fetch({ made: done.file.made })
    expect(sha256(new Uint8Array(await file.arrayBuffer()))).toBe(done.file.sha256)
  })

  it('FREEZE-5: a backup saves the frozen files, brings back what is gone, and takes neither a changed file nor another name', async () => {
    const { client, asked, defect, bundles, services, project, person, bay } = await withFault()
    await all(await client.faults.freeze(asked))
    const { body } = (await client.faults.page({ defect })).frozen[0]!
    const saved = join(services.folder.backups, 'bundles')
    const { backup } = await client.record.backUp()
    expect(backup.frozen).toEqual({ named: 2, saved: 2 })
    expect(readdirSync(saved).toSorted()).toEqual([body.bundle!, body.report!].toSorted())
    const names = [body.bundle!, body.report!]
    const bytes = new Map(names.map((name) => [name, readFileSync(join(bundles, name))]))
    const { read } = services.record.current()

    for (const name of names) rmSync(join(bundles, name))
    expect(await bringFrozenBack(read, services.folder.backups)).toBe(2)
    for (const name of names) expect(readFileSync(join(bundles, name)).equals(bytes.get(name)!)).toBe(true)
    expect(await bringFrozenBack(read, services.folder.backups)).toBe(0)

    appendFileSync(join(bundles, body.report!), ' ')
    expect(await saveFrozen(read, services.folder.backups)).toEqual({ named: 2, saved: 2 })
    expect(sha256(readFileSync(join(saved, body.report!)))).toBe(body.reportHash)
    rmSync(join(saved, body.report!))
    expect(await saveFrozen(read, services.folder.backups)).toEqual({ named: 2, saved: 1 })
    expect(existsSync(join(saved, body.report!))).toBe(false)
    // A backup that lacks one says so, in its answer and in the list.
    const lacking = (await client.record.backUp()).backup
    expect(lacking.frozen).toEqual({ named: 2, saved: 1 })
    expect((await client.record.backups()).backups[0]).toEqual(lacking)

    const foreign = { ...body, bundle: '../record.sqlite', report: '../pins.json' }
    await client.record.append({
      entries: [
        {
          id: mint<'entry'>(),
          project,
          subject: bay,
          kind: 'evidence-frozen',
          happenedAt: new Date(laid + 29 * day).toISOString(),
          zone: 'Europe/London',
          person,
          source: 'typed',
          body: foreign,
        },
      ],
    })
    expect(await saveFrozen(read, services.folder.backups)).toEqual({ named: 2, saved: 1 })
  })
})
