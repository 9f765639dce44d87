import react from '@vitejs/plugin-react'
import { defineConfig, type HtmlTagDescriptor, type Plugin, type Rolldown } from 'vite'
import { root } from '../root.ts'

/** The renderer as files that the content policy allows: nothing inline, hashed names under /assets/. */
export default defineConfig({
  root: `${root}renderer`,
  base: '/',
  logLevel: 'warn',
  plugins: [react(), programInHead('renderer/start.tsx')],
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

/** Names the files of the program in the page's head: it is imported by a script, and a browser would find them late. */
function programInHead(entry: string): Plugin {
  return {
    name: 'program-in-head',
    transformIndexHtml: {
      order: 'post',
      handler: (_html, { bundle = {} }) => {
        const scripts = scriptsOf(bundle, entry)
        const styles = new Set(scripts.flatMap(({ viteMetadata }) => [...(viteMetadata?.importedCss ?? [])]))
        return [
          ...scripts.map(({ fileName }) => link({ rel: 'modulepreload', href: `/${fileName}` })),
          ...[...styles].map((file) => link({ rel: 'preload', as: 'style', href: `/${file}` })),
        ]
      },
    },
  }
}

function scriptsOf(bundle: Rolldown.OutputBundle, entry: string): Rolldown.OutputChunk[] {
  const chunks = Object.values(bundle).filter((file) => file.type === 'chunk')
  const first = chunks.find(({ facadeModuleId }) => facadeModuleId?.endsWith(entry))
  if (first === undefined) throw new Error(`The bundle has no chunk of ${entry}.`)
  const found = new Set([first])
  for (const { imports } of found)
    for (const chunk of chunks) if (imports.includes(chunk.fileName)) found.add(chunk)
  return [...found]
}

function link(attrs: Record<string, string>): HtmlTagDescriptor {
  return { tag: 'link', attrs: { crossorigin: true, ...attrs }, injectTo: 'head' }
}
