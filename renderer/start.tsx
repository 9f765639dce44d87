import '@fontsource-variable/source-sans-3/index.css'
import '@mantine/core/styles.layer.css'
import './app/base.css'
import { setNonce } from 'get-nonce'
import { createRoot } from 'react-dom/client'
import { App } from './app/app.tsx'
import { bringInFirst } from './app/queries.ts'

const nonce = document.querySelector<HTMLMetaElement>('meta[name="csp-nonce"]')?.content
if (nonce !== undefined && nonce !== '') setNonce(nonce)

const root = document.getElementById('root')
if (root === null) throw new Error('index.html has no #root')

// A page that waits is drawn only when the answers take so long that a person would notice: else it is drawn once, whole.
const noticedMs = 250
await Promise.race([bringInFirst(), new Promise((resolve) => setTimeout(resolve, noticedMs))])
createRoot(root).render(<App />)
