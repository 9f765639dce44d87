import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { RPCHandler } from '@orpc/server/node'
import { fileNameHeader } from '#model/contract/shell-bridge.ts'
import { router } from '../../api/router.ts'
import type { Services } from '../../api/services.ts'
import { type Assets, answerAsset } from '../assets.ts'
import { receiveUpload } from '../receive-upload.ts'
import { refusals } from '../refusal.ts'
import { answerData, guardData, refuse, sendAsset } from './answer.ts'
import { type Door, refusalOf } from './gate.ts'
import { routeOf } from './routes.ts'
import { freshToken } from './session.ts'
import { wholeForms } from './whole-forms.ts'

export interface BrowserHost {
  /** The address without the token. */
  origin: string
  token: string
  /** What a person opens: the token is in the fragment, which no browser sends over the wire. */
  url: string
  close: () => Promise<void>
}

interface BrowserHostOptions {
  services: Services
  assets: Assets
  /** 0 takes a free one. */
  port?: number
}

const loopback = '127.0.0.1'

/**
 * Serves Bayledger to a browser on this machine and to nobody else.
 * @throws the error of node:http when the port is taken or not allowed.
 */
export async function startBrowserHost({
  services,
  assets,
  port = 0,
}: BrowserHostOptions): Promise<BrowserHost> {
  const calls = new RPCHandler(router, { rootInterceptors: [wholeForms] })
  const server = createServer({ maxHeaderSize: 16 * 1024, requestTimeout: 600_000, headersTimeout: 10_000 })
  limit(server)
  await listening(server, port)
  const authority = `${loopback}:${(server.address() as AddressInfo).port}`
  const door: Door = { authority, origin: `http://${authority}`, token: freshToken() }

  const answer = async (request: IncomingMessage, response: ServerResponse) => {
    const path = pathOf(request)
    if (path === null) return refuse(response, refusals.badRequest)
    const route = routeOf(path)
    const refusal = refusalOf(request, route, door)
    if (refusal !== null) return refuse(response, refusal, route.methods)
    if (route.kind === 'upload') return takeUpload(services, request, response)
    if (route.kind === 'call') {
      guardData(response)
      const { matched } = await calls.handle(request, response, { prefix: '/rpc', context: services })
      if (!matched) refuse(response, refusals.notFound)
      return
    }
    const asset = answerAsset(assets, path)
    if (asset === null) return refuse(response, refusals.notFound)
    sendAsset(response, asset, request.method !== 'HEAD')
  }

  server.on('request', (request, response) => {
    answer(request, response).catch((cause: unknown) => {
      const logId = services.log.keep('browser host', cause)
      refuse(response, {
        status: 500,
        code: 'INTERNAL',
        message: `Something went wrong. The log has it as ${logId}.`,
      })
    })
  })
  return {
    origin: door.origin,
    token: door.token,
    url: `${door.origin}/#token=${door.token}`,
    close: () => closed(server),
  }
}

async function takeUpload(
  services: Services,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const leaving = new AbortController()
  response.once('close', () => leaving.abort())
  const name = request.headers[fileNameHeader]
  const taken = await receiveUpload(services, request, typeof name === 'string' ? name : null, leaving.signal)
  if ('refusal' in taken) refuse(response, taken.refusal)
  else answerData(response, taken)
}

/** The path as sent, undecoded: an encoded dot or slash is part of a name that does not exist. */
function pathOf(request: IncomingMessage): string | null {
  const target = request.url ?? ''
  if (!target.startsWith('/') || target.startsWith('//')) return null
  return target.split('?', 1)[0] ?? null
}

/** One person with a few tabs needs little; whoever asks for more is not that person. */
function limit(server: Server): void {
  server.maxConnections = 64
  server.maxRequestsPerSocket = 10_000
  server.keepAliveTimeout = 10_000
  server.setTimeout(120_000)
  server.on('upgrade', (_request, socket) => socket.destroy())
  server.on('connect', (_request, socket) => socket.destroy())
  server.on('clientError', (_cause, socket) => {
    if (socket.writable)
      socket.end('HTTP/1.1 400 Bad Request\r\nConnection: close\r\nContent-Length: 0\r\n\r\n')
    else socket.destroy()
  })
}

function listening(server: Server, port: number): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', reject)
    server.listen({ host: loopback, port }, () => {
      server.off('error', reject)
      resolve()
    })
  })
}

function closed(server: Server): Promise<void> {
  return new Promise((resolve) => {
    server.close(() => resolve())
    server.closeAllConnections()
  })
}
