import type { Configuration } from 'electron-builder'
import { root } from '../root.ts'

/**
 * What goes into the packaged program. The shell's code is bundled already, so the only package inside is the native
 * one, with the one prebuilt file of the target platform lying unpacked beside the archive.
 */
export const builder: Configuration = {
  appId: 'local.bayledger',
  productName: 'Bayledger',
  directories: { output: `${root}release` },
  asar: { smartUnpack: false },
  npmRebuild: false,
  nodeGypRebuild: false,
  buildDependenciesFromSource: false,
  files: [
    'package.json',
    'dist/shell/**',
    'dist/renderer/**',
    '!node_modules/**',
    'node_modules/better-sqlite3/package.json',
    'node_modules/better-sqlite3/LICENSE',
    'node_modules/better-sqlite3/lib/**',
    // biome-ignore lint/suspicious/noTemplateCurlyInString: electron-builder fills these in.
    'node_modules/better-sqlite3/prebuilds/${platform}-${arch}.node',
  ],
  asarUnpack: ['**/*.node'],
  electronFuses: {
    runAsNode: false,
    enableCookieEncryption: true,
    enableNodeOptionsEnvironmentVariable: false,
    enableNodeCliInspectArguments: false,
    enableEmbeddedAsarIntegrityValidation: true,
    onlyLoadAppFromAsar: true,
    loadBrowserProcessSpecificV8Snapshot: false,
    grantFileProtocolExtraPrivileges: false,
  },
  linux: { target: ['AppImage', 'deb'], category: 'Office' },
  mac: { target: ['dmg'], category: 'public.app-category.business', hardenedRuntime: true },
  win: { target: ['nsis'] },
  publish: null,
}
