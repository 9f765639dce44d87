import type { IncomingMessage } from 'node:http'
import { type Refusal, refusals } from '../refusal.ts'
import type { Route } from './routes.ts'
import { carriesToken } from './session.ts'

/** The one address this host answers to, and the token of its session. */
export interface Door {
  authority: string
  origin: string
  token: string
}

/**
 * Returns why a request is not let in, or null. The order is that of distance: is it for us (Host), from us (Origin,
 * Sec-Fetch-Site), by us (token), and only then is it well formed. Nothing of the body has been read yet.
 */
export function refusalOf(request: IncomingMessage, route: Route, door: Door): Refusal | null {
  return (
    wrongHost(request, door) ??
    crossSite(request, route, door) ??
    withoutToken(request, route, door) ??
    wrongShape(request, route)
  )
}

/** A page of another name that resolves to 127.0.0.1 (DNS rebinding) betrays itself by its Host. */
function wrongHost(request: IncomingMessage, door: Door): Refusal | null {
  const hosts = headerValues(request, 'host')
  return hosts.length === 1 && hosts[0] === door.authority ? null : refusals.wrongHost
}

function crossSite(request: IncomingMessage, route: Route, door: Door): Refusal | null {
  const site = request.headers['sec-fetch-site']
  const origin = request.headers.origin
  if (route.kind === 'asset') {
    const typedOrOurs = site === undefined || site === 'none' || site === 'same-origin'
    return typedOrOurs && (origin === undefined || origin === door.origin) ? null : refusals.crossSite
  }
  // Every browser sends Origin with a POST, so a missing one is not one of our pages either.
  const ours = (site === undefined || site === 'same-origin') && origin === door.origin
  return ours ? null : refusals.crossSite
}

/** Built files are no secret; everything else asks for the token. */
function withoutToken(request: IncomingMessage, route: Route, door: Door): Refusal | null {
  if (route.kind === 'asset') return null
  return carriesToken(request.headers.authorization, door.token) ? null : refusals.noToken
}

function wrongShape(request: IncomingMessage, route: Route): Refusal | null {
  if (!route.methods.includes(request.method ?? '')) return refusals.wrongMethod
  const length = request.headers['content-length']
  if (route.kind === 'asset') return length === undefined || length === '0' ? null : refusals.tooLarge
  if (length === undefined || request.headers['transfer-encoding'] !== undefined) return refusals.noLength
  if (!(Number(length) <= route.maxBytes)) return refusals.tooLarge
  if (route.contentType?.test(request.headers['content-type'] ?? '') === false) return refusals.wrongType
  return null
}

function headerValues(request: IncomingMessage, name: string): string[] {
  const { rawHeaders } = request
  return rawHeaders.filter((_, index) => index % 2 === 1 && rawHeaders[index - 1]?.toLowerCase() === name)
}
