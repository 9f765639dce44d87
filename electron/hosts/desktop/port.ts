import type { SupportedMessagePort } from '@orpc/client/message-port'
import { RPCHandler } from '@orpc/server/message-port'
import { router } from '../../api/router.ts'
import type { Services } from '../../api/services.ts'

type StartablePort = SupportedMessagePort & { start: () => void }

const calls = new RPCHandler(router)

/** Answers the calls of the contract on a port. */
export function servePort(port: StartablePort, services: Services): void {
  calls.upgrade(port, { context: services })
  port.start()
}
