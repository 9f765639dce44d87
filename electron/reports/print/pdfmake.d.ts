import 'pdfmake'

declare module 'pdfmake' {
  /** The engine's own folder in memory, from which it reads fonts; left out of its published types. */
  export const virtualfs: { writeFileSync: (name: string, content: Uint8Array) => void }
}
