declare module 'pdfmake/build/fonts/Roboto.js' {
  const container: {
    vfs: Record<string, { data: string; encoding: 'base64' }>
    fonts: Record<string, { normal: string; bold: string; italics: string; bolditalics: string }>
  }
  export default container
}
