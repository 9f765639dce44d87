import { readdirSync, readFileSync } from 'node:fs'
import { extname, join, relative, sep } from 'node:path'
import { contentPolicy, freshNonce, guardHeaders } from './content-policy.ts'

const servedTypes: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.json': 'application/json; charset=utf-8',
}

const emptyNonce = '<meta name="csp-nonce" content="">'
const nonceTag = /<meta name="csp-nonce" content=""\s*\/?>/

interface Asset {
  type: string
  body: Buffer
}

/** The built files of the renderer by their address, read once: what is not in here does not exist. */
export type Assets = ReadonlyMap<string, Asset>

/**
 * Returns the built files of a folder by address (`/index.html`, `/assets/…`). Files of a type that no page needs
 * (source maps, dot files) are left out.
 * @throws Error when the folder has no `index.html`, or one without a place for the style nonce.
 */
export function readAssets(folder: string): Assets {
  const assets = new Map<string, Asset>()
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    const type = servedTypes[extname(entry.name)]
    if (!entry.isFile() || entry.name.startsWith('.') || type === undefined) continue
    const file = join(entry.parentPath, entry.name)
    assets.set(`/${relative(folder, file).split(sep).join('/')}`, { type, body: readFileSync(file) })
  }
  const page = assets.get('/index.html')
  if (page === undefined) throw new Error(`There is no index.html in ${folder}. Run “npm run build” first.`)
  if (!nonceTag.test(page.body.toString('utf8')))
    throw new Error(`index.html in ${folder} lacks ${emptyNonce}.`)
  return assets
}

export interface AssetAnswer {
  headers: Record<string, string>
  body: Buffer
}

/** Returns the file at an address of either host with its headers, or null when there is none. */
export function answerAsset(assets: Assets, path: string): AssetAnswer | null {
  const address = path === '/' ? '/index.html' : path
  const asset = assets.get(address)
  if (asset === undefined) return null
  const nonce = freshNonce()
  const isPage = address === '/index.html'
  const body = isPage
    ? Buffer.from(asset.body.toString('utf8').replace(nonceTag, `<meta name="csp-nonce" content="${nonce}">`))
    : asset.body
  return {
    headers: {
      ...guardHeaders,
      'content-security-policy': contentPolicy(nonce),
      'content-type': asset.type,
      'content-length': String(body.length),
      // Names under /assets/ carry a hash of their bytes; the page itself carries a nonce and is never kept.
      'cache-control': address.startsWith('/assets/') ? 'private, max-age=31536000, immutable' : 'no-store',
    },
    body,
  }
}
