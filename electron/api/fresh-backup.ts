import type { Services } from './services.ts'
export function keepBackupsFresh(_s: Services) {
  return { stop: async () => {} }
}
