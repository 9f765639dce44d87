import '@fontsource-variable/source-sans-3/index.css'
import '@mantine/core/styles.layer.css'
import './app/base.css'
// The client takes the session's token out of the address before anything reads the address as a route.
import './app/client.ts'
import { setNonce } from 'get-nonce'
import { createRoot } from 'react-dom/client'
import { App } from './app/app.tsx'
import { askEarly } from './app/queries.ts'

void askEarly()

const nonce = document.querySelector<HTMLMetaElement>('meta[name="csp-nonce"]')?.content
if (nonce !== undefined && nonce !== '') setNonce(nonce)

const root = document.getElementById('root')
if (root === null) throw new Error('index.html has no #root')
createRoot(root).render(<App />)
