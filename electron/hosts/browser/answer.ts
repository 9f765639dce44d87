import type { ServerResponse } from 'node:http'
import type { AssetAnswer } from '../assets.ts'
import { guardHeaders } from '../content-policy.ts'
import { type Refusal, refusalBody } from '../refusal.ts'

const dataHeaders: Readonly<Record<string, string>> = {
  ...guardHeaders,
  'content-security-policy': "default-src 'none'; frame-ancestors 'none'",
  'cache-control': 'no-store',
}

/** Sets the headers of an answer that carries data, before whoever answers writes its own. */
export function guardData(response: ServerResponse): void {
  for (const [name, value] of Object.entries(dataHeaders)) response.setHeader(name, value)
}

/** Refuses a request and closes its connection, so that a body we do not want is not read. */
export function refuse(response: ServerResponse, refusal: Refusal, allow: readonly string[] = []): void {
  if (response.headersSent) {
    response.destroy()
    return
  }
  guardData(response)
  response.setHeader('content-type', 'application/json; charset=utf-8')
  response.setHeader('connection', 'close')
  if (refusal.status === 405) response.setHeader('allow', allow.join(', '))
  response.writeHead(refusal.status)
  response.end(refusalBody(refusal))
}

export function answerData(response: ServerResponse, body: unknown): void {
  guardData(response)
  response.setHeader('content-type', 'application/json; charset=utf-8')
  response.writeHead(200)
  response.end(JSON.stringify(body))
}

export function sendAsset(response: ServerResponse, { headers, body }: AssetAnswer, withBody: boolean): void {
  response.writeHead(200, headers)
  response.end(withBody ? body : undefined)
}
