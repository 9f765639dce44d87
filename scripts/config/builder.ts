import type { Configuration } from 'electron-builder'
import { root } from '../root.ts'

/**
 * What goes into the packaged program. The shell's code is bundled already, so the only packages inside are the
 * native ones, SQLite and the one that reads pictures, with what is built for the target platform lying unpacked beside
 * the archive: the system loads a library from a file, not from an archive.
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
    'node_modules/sharp/package.json',
    'node_modules/sharp/LICENSE',
    'node_modules/sharp/dist/**',
    ...['@img/colour', 'detect-libc', 'semver'].map((name) => `node_modules/${name}/**`),
    // biome-ignore lint/suspicious/noTemplateCurlyInString: electron-builder fills these in.
    'node_modules/@img/sharp-${platform}-${arch}/**',
    // biome-ignore lint/suspicious/noTemplateCurlyInString: electron-builder fills these in.
    'node_modules/@img/sharp-libvips-${platform}-${arch}/**',
  ],
  asarUnpack: ['**/*.node', 'node_modules/@img/sharp-*/**'],
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
