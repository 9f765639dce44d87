import { readFileSync } from 'node:fs'
import path from 'node:path'
import { safe } from '@orpc/client'
import { call } from '@orpc/server'
import { describe, expect, it } from 'vitest'
import { appendEntries } from '#db/index.ts'
import { calls } from '#electron/api/base.ts'
import { callProblem, callRule, rolesForCall } from '#model/people/index.ts'
import type { BayId, PersonId } from '#model/record/ids.ts'
import { type Role, roles } from '#model/record/people.ts'
import { bundleOf, fullSite } from '#tests/db/bundle/site-bundle.ts'
import { entry, nextId } from '#tests/db/site.ts'
import { contractRoutes } from '#tests/electron/hosts/contract-routes.ts'
import { tempFolder } from '../temp-folder.ts'
import { openedWithCrew } from './crew.ts'
import { opened } from './opened.ts'
import { all, once } from './served.ts'

type WithCrew = Awaited<ReturnType<typeof openedWithCrew>>

const roleNames = Object.keys(roles) as Role[]
const callNames = contractRoutes().map((route) => route.replace('/rpc/', '').replaceAll('/', '.'))
const reasonOf = (error: unknown) => (error as { data?: { reason?: string } } | null)?.data?.reason ?? null
const entriesIn = ({ services }: Pick<WithCrew, 'services'>) =>
  services.record.current().read.sqlite.prepare('select count(*) from ledger').pluck().get()

/** A bundle of the very record, so that it is about a project that is here, with its upload in this session. */
async function received({ services }: Pick<WithCrew, 'services'>, bytes: Buffer) {
  const { id } = await services.uploads.receive(once(bytes), 'received.baybundle')
  return id
}

async function made(opened: WithCrew, person: PersonId) {
  const { project, client } = opened
  const events = await all(await client.bundles.make({ project, person, scope: { kind: 'project' } }))
  const last = events.at(-1)
  if (last?.kind !== 'done') throw new Error('no bundle was made')
  return last.bundle
}

/** How each call that the table gives to roles is made in somebody's name. A new one without a line here fails. */
const inTheNameOf: Record<string, (opened: WithCrew, person: PersonId) => Promise<unknown>> = {
  'faults.freeze': async (opened, person) => {
    const { project, client, site } = opened
    const bay = site.bay as BayId
    const defect = nextId<'entry'>()
    await opened.write('supervisor', ['defect-found', { id: defect }])
    const entry = nextId<'entry'>()
    return all(await client.faults.freeze({ entry, defect, project, person, bays: [bay], reason: 'Claim' }))
  },
  'bundles.make': made,
  'bundles.takeIn': async (opened, person) => {
    const { file, fingerprint } = await made(opened, opened.crew.supervisor)
    const upload = await received(opened, readFileSync(file))
    return all(await opened.client.bundles.takeIn({ upload, fingerprint, person }))
  },
}

describe('calls that somebody makes in a name', () => {
  it('CALL-1: each call that the table gives to roles is tried here', () => {
    const given = callNames.filter((name) => rolesForCall(name) !== null)
    expect(given.toSorted()).toEqual(Object.keys(inTheNameOf).toSorted())
    expect(given.length).toBeGreaterThan(1)
    for (const name of given) expect(rolesForCall(name)).not.toContain('viewer')
  })

  it.each(Object.keys(inTheNameOf))(
    'CALL-2: %s is refused exactly to the roles that the table does not give it to',
    async (name) => {
      const opened = await openedWithCrew()
      for (const role of roleNames) {
        const before = entriesIn(opened)
        const { error } = await safe(inTheNameOf[name]!(opened, opened.crew[role]))
        const isGiven = rolesForCall(name)!.includes(role)
        expect(reasonOf(error), role).toBe(isGiven ? null : 'role')
        if (isGiven) expect(error, role).toBeNull()
        else if (name === 'bundles.make') expect(entriesIn(opened), role).toBe(before)
      }
    },
    60_000,
  )

  it.each(Object.keys(inTheNameOf))(
    'CALL-3: %s in the name of nobody that is known is refused',
    async (name) => {
      const opened = await openedWithCrew()
      const { error } = await safe(inTheNameOf[name]!(opened, nextId<'person'>()))
      expect(error).toMatchObject({ code: 'NOT_FOUND', data: { what: 'person' } })
    },
  )

  it('CALL-4: without a name a bundle is taken in only while the record knows nobody', async () => {
    const site = fullSite(path.join(tempFolder(), 'site'))
    const bundle = bundleOf(site)
    site.close()
    const bytes = readFileSync(bundle.file)
    const { fingerprint } = bundle
    const crew = await openedWithCrew()
    const before = entriesIn(crew)
    const upload = await received(crew, bytes)
    const refused = await safe(all(await crew.client.bundles.takeIn({ upload, fingerprint })))
    expect(refused.error?.message).toMatch(/Say who takes it in/)
    expect(entriesIn(crew)).toBe(before)
    // A project that is new here is taken in by somebody of the one that is.
    const viewer = { upload, fingerprint, person: crew.crew.viewer }
    expect((await safe(all(await crew.client.bundles.takeIn(viewer)))).error?.message).toMatch(
      /A viewer may not take in a bundle\. Let a .* do it\./,
    )
    await all(await crew.client.bundles.takeIn({ ...viewer, person: crew.crew.tester }))
    expect(entriesIn(crew)).toBe((before as number) + bundle.manifest.entries.given)

    const empty = await opened()
    const first = { upload: await received(empty, bytes), fingerprint }
    expect((await all(await empty.client.bundles.takeIn(first))).at(-1)).toMatchObject({ kind: 'done' })
    // Now it knows people, and the same again needs one of them.
    const again = { upload: await received(empty, bytes), fingerprint }
    expect(reasonOf((await safe(all(await empty.client.bundles.takeIn(again)))).error)).toBe('role')
    // Somebody of another project has no say in one that is here.
    await all(
      await crew.client.bundles.takeIn({
        ...viewer,
        upload: await received(crew, bytes),
        person: crew.crew.tester,
      }),
    ).then(
      () => expect.fail('was taken in'),
      (cause) => expect(reasonOf(cause)).toBe('role'),
    )
  }, 60_000)

  it('CALL-5: a call that is not in the table, or that the table does not give to roles, is nobody’s', () => {
    for (const name of ['bundles.burn', 'record.append', 'projects.list', 'toString'])
      expect(callProblem(name, roleNames)).toMatch(/^Nobody may call .*\.$/)
  })

  it('CALL-6: a call that stands in the table as reading cannot write, whatever its code does', async () => {
    const { services, site } = await openedWithCrew()
    expect(callRule('projects.list')).toEqual({ changes: 'nothing' })
    const cheating = calls.projects.list.handler(({ context }) => {
      appendEntries(context.record.current(), [entry(site, 'air-read')], { recordedAt: context.clock() })
      return { projects: [] }
    })
    const before = entriesIn({ services })
    await expect(call(cheating, {}, { context: services, path: ['projects', 'list'] })).rejects.toThrow(
      /projects\.list reads: .* lets it write nothing/,
    )
    expect(entriesIn({ services })).toBe(before)
  })
})
