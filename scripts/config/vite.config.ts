import react from '@vitejs/plugin-react'
import { defineConfig } from 'vite'
import { root } from '../root.ts'

/** The renderer as files that the content policy allows: nothing inline, hashed names under /assets/. */
export default defineConfig({
  root: `${root}renderer`,
  base: '/',
  logLevel: 'warn',
  plugins: [react()],
  build: {
    outDir: `${root}dist/renderer`,
    emptyOutDir: true,
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    sourcemap: false,
    target: 'chrome140',
    chunkSizeWarningLimit: 2000,
  },
})
