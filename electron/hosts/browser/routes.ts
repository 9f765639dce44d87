import { bundleMaxBytes } from '../../api/uploads.ts'

const megabyte = 1024 * 1024

/** What kind of address a request is for, and what that address takes. */
export interface Route {
  kind: 'call' | 'upload' | 'asset'
  methods: readonly string[]
  contentType: RegExp | null
  maxBytes: number
}

/** 500 entries of a generous 8 kB each. */
export const callMaxBytes = 4 * megabyte
/** The largest file of any sort; what each sort may have is asked where it is stored. */
export const uploadMaxBytes = bundleMaxBytes

const call: Route = {
  kind: 'call',
  methods: ['POST'],
  contentType: /^application\/json(?:;|$)/i,
  maxBytes: callMaxBytes,
}
const upload: Route = {
  kind: 'upload',
  methods: ['POST'],
  contentType: /^application\/octet-stream(?:;|$)/i,
  maxBytes: uploadMaxBytes,
}
const asset: Route = { kind: 'asset', methods: ['GET', 'HEAD'], contentType: null, maxBytes: 0 }

/** Returns what an address is for. Whether a built file or a call of that name exists is found out later. */
export function routeOf(path: string): Route {
  if (path === '/upload') return upload
  return path === '/rpc' || path.startsWith('/rpc/') ? call : asset
}
