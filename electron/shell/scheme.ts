import { protocol, type Session } from 'electron'
import { fileNameHeader } from '#model/contract/shell-bridge.ts'
import type { Services } from '../api/services.ts'
import { type Assets, answerAsset } from '../hosts/assets.ts'
import { guardHeaders } from '../hosts/content-policy.ts'
import { receiveUpload } from '../hosts/receive-upload.ts'
import { type Refusal, refusalBody, refusals } from '../hosts/refusal.ts'
import { isOurs, pageScheme } from './our-page.ts'

/** Must run before the app is ready. Standard and secure: the page has an origin, and its policy is kept. */
export function declareScheme(): void {
  const privileges = { standard: true, secure: true, supportFetchAPI: true, stream: true, codeCache: true }
  protocol.registerSchemesAsPrivileged([{ scheme: pageScheme, privileges }])
}

/** Serves the built files to the page, by the same function as the browser host, and takes files in. */
export function serveScheme(session: Session, services: Services, assets: Assets): void {
  session.protocol.handle(pageScheme, (request) => answerRequest(request, services, assets))
}

async function answerRequest(request: Request, services: Services, assets: Assets): Promise<Response> {
  if (!isOurs(request.url)) return refused(refusals.wrongHost)
  const { pathname } = new URL(request.url)
  if (pathname === '/upload') return takeUpload(request, services)
  if (request.method !== 'GET') return refused(refusals.wrongMethod)
  const asset = answerAsset(assets, pathname)
  if (asset === null) return refused(refusals.notFound)
  return new Response(new Uint8Array(asset.body), { headers: asset.headers })
}

async function takeUpload(request: Request, services: Services): Promise<Response> {
  if (request.method !== 'POST') return refused(refusals.wrongMethod)
  const { body, headers, signal } = request
  if (body === null) return refused(refusals.badRequest)
  const taken = await receiveUpload(services, body, headers.get(fileNameHeader), signal)
  return 'refusal' in taken ? refused(taken.refusal) : answered(200, JSON.stringify(taken))
}

function refused(refusal: Refusal): Response {
  return answered(refusal.status, refusalBody(refusal))
}

function answered(status: number, body: string): Response {
  const headers = {
    ...guardHeaders,
    'content-type': 'application/json; charset=utf-8',
    'cache-control': 'no-store',
  }
  return new Response(body, { status, headers })
}
