import { MessageChannel } from 'node:worker_threads'
import { createORPCClient, isDefinedError, safe } from '@orpc/client'
import { RPCLink } from '@orpc/client/message-port'
import type { ContractRouterClient } from '@orpc/contract'
import { describe, expect, it, onTestFinished } from 'vitest'
import { servePort } from '#electron/hosts/desktop/port.ts'
import type { Contract } from '#model/contract/index.ts'
import { openedWithSite } from '../api/opened.ts'

async function overPort() {
  const { services, site } = await openedWithSite()
  const { port1, port2 } = new MessageChannel()
  servePort(port1, services)
  port2.start()
  onTestFinished(() => port2.close())
  const client: ContractRouterClient<Contract> = createORPCClient(
    new RPCLink({ port: port2 as unknown as MessagePort }),
  )
  return { client, site }
}

describe('the calls over a port', () => {
  it('PORT-1: answers, errors and streams arrive as they do over HTTP', async () => {
    const { client, site } = await overPort()
    expect((await client.projects.list()).projects.map(({ id }) => id)).toEqual([site.project])
    const { error } = await safe(client.projects.outline({ project: 'nobody' }))
    expect(error !== null && isDefinedError(error) && error.code).toBe('INPUT_OUT_OF_RANGE')
    const events = []
    for await (const event of await client.record.verify()) events.push(event)
    expect(events.at(-1)).toMatchObject({ kind: 'done', report: { ok: true, firstDifference: null } })
  })
})
