import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { isDefinedError, safe } from '@orpc/client'
import { describe, expect, it } from 'vitest'
import { callErrors } from '#model/contract/errors.ts'
import type { BayId } from '#model/record/ids.ts'
import { entry, morning, nextId } from '#tests/db/site.ts'
import { openedWithSite } from './opened.ts'

/** What a call was refused with, or a failed test when it was not. */
async function refusal(call: Promise<unknown>) {
  const { error } = await safe(call as Promise<never>)
  if (error === null) throw new Error('The call was not refused.')
  expect(isDefinedError(error)).toBe(true)
  const told = error as unknown as {
    code: keyof typeof callErrors
    status: number
    message: string
    data: unknown
  }
  expect(callErrors[told.code].status).toBe(told.status)
  expect(callErrors[told.code].data.safeParse(told.data).success).toBe(true)
  return told
}

describe('errors of calls', () => {
  it('ERROR-1: input of the wrong shape names each field with a sentence', async () => {
    const { client } = await openedWithSite()
    const told = await refusal(client.record.append({ entries: [{ kind: 'air-read' }] } as never))
    expect(told.code).toBe('INPUT_OUT_OF_RANGE')
    expect(told.data).toMatchObject({
      problems: expect.arrayContaining([
        {
          field: 'entries.0.happenedAt',
          value: 'nothing',
          message: 'entries.0.happenedAt is missing; fill it in.',
        },
      ]),
    })
  })

  it('ERROR-2: a value outside its hard range names field, value and range, and nothing of the same call is kept', async () => {
    const { client, site } = await openedWithSite()
    const good = entry(site, 'air-read', { at: morning })
    const bad = { ...entry(site, 'air-read', { at: morning }) }
    const before = (await client.record.list({ project: site.project as never })).entries.length
    const told = await refusal(
      client.record.append({ entries: [good, { ...bad, body: { ...bad.body, airC: 400 } }] }),
    )
    expect(told.code).toBe('INPUT_OUT_OF_RANGE')
    const { problems } = told.data as { problems: { field: string; value: string; message: string }[] }
    expect(problems[0]).toMatchObject({ field: expect.stringContaining('airC'), value: '400' })
    expect((await client.record.list({ project: site.project as never })).entries).toHaveLength(before)
  })

  it('ERROR-3: what this record does not hold is not found', async () => {
    const { client } = await openedWithSite()
    const bay = nextId() as unknown as BayId
    const told = await refusal(client.bays.life({ bay }))
    expect(told).toMatchObject({ code: 'NOT_FOUND', data: { what: 'bay', id: bay } })
  })

  it('ERROR-4: a correction of what was corrected already is a conflict that names the entry that stands', async () => {
    const { client, site } = await openedWithSite()
    const noted = entry(site, 'air-read', { at: morning })
    const better = entry(site, 'air-read', { at: morning, corrects: noted.id, reason: 'Misread' })
    const late = entry(site, 'air-read', { at: morning, corrects: noted.id, reason: 'Misread too' })
    await client.record.append({ entries: [noted] })
    await client.record.append({ entries: [better] })
    const told = await refusal(client.record.append({ entries: [late] }))
    expect(told).toMatchObject({ code: 'CONFLICT', data: { entry: better.id } })
  })

  it('ERROR-5: moving aside a record that opens well is not allowed', async () => {
    const { client } = await openedWithSite()
    expect(await refusal(client.recovery.moveAside())).toMatchObject({ code: 'NOT_ALLOWED' })
  })

  it('ERROR-6: what nobody foresaw leaves only an id; the log keeps the whole chain of causes', async () => {
    const { client, services, data } = await openedWithSite()
    const secret = new Error('a path /home/somebody', { cause: new TypeError('the first cause') })
    const broken = {
      ...services.record,
      current: () => {
        throw secret
      },
    }
    services.record = broken
    const told = await refusal(client.projects.list())
    expect(told.code).toBe('INTERNAL')
    expect(JSON.stringify(told)).not.toMatch(/somebody|first cause|stack/)
    const { logId } = told.data as { logId: string }
    expect(told.message).toContain(logId)
    const [line] = readFileSync(join(data, 'logs', 'bayledger.log'), 'utf8')
      .trim()
      .split('\n')
    const kept = JSON.parse(line ?? '')
    expect(kept).toMatchObject({ id: logId, where: 'projects.list', at: new Date(morning).toISOString() })
    expect(kept.error).toMatch(/somebody[\s\S]*the first cause/)
  })

  it('ERROR-7: an error in the middle of a stream is one of the contract as well', async () => {
    const { client, services } = await openedWithSite()
    const run = async () => {
      throw new Error('the thread is gone')
    }
    services.workers = { ...services.workers, run }
    const stream = await client.record.verify()
    const told = await refusal(
      (async () => {
        for await (const event of stream) expect(event.kind).toBe('progress')
      })(),
    )
    expect(told.code).toBe('INTERNAL')
    expect(told.message).not.toContain('thread is gone')
  })
})
