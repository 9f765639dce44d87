import { type ClientLink, createORPCClient, DynamicLink } from '@orpc/client'
import { RPCLink as FetchLink } from '@orpc/client/fetch'
import { RPCLink as PortLink } from '@orpc/client/message-port'
import type { ContractRouterClient } from '@orpc/contract'
import { createTanstackQueryUtils } from '@orpc/tanstack-query'
import type { Contract } from '#model/contract/index.ts'
import { earlyAnswer } from './early.ts'
import { sessionHeaders } from './session-token.ts'
import { portFromShell } from './shell-port.ts'

export { hasSession } from './session-token.ts'
export { uploadFile } from './upload.ts'

type NoContext = Record<never, never>

/** Over the shell's port when there is one, over HTTP to the host that served this page otherwise. */
function linkToHost(): ClientLink<NoContext> {
  const shell = window.bayledgerShell
  if (shell === undefined) {
    return new FetchLink<NoContext>({
      url: `${window.location.origin}/rpc`,
      headers: sessionHeaders,
      fetch: (request, init, _options, path, input) => earlyAnswer(path, input) ?? fetch(request, init),
    })
  }
  const link = portFromShell(shell).then((port) => new PortLink<NoContext>({ port }))
  return new DynamicLink<NoContext>(() => link)
}

/** Every call of the contract, wherever the record lives. */
export const client: ContractRouterClient<Contract> = createORPCClient(linkToHost())

/** The same calls as query and mutation options. */
export const orpc = createTanstackQueryUtils(client)
