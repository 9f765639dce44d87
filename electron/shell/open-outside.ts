import { dialog, shell } from 'electron'

const schemes = new Set(['https:', 'mailto:'])

/**
 * Opens a web page or a letter in the person's own program, after asking: the only place that does. Any other scheme
 * could start a program with words of a stranger, and is not even asked about.
 * @returns whether it was opened.
 */
export async function openOutside(address: string): Promise<boolean> {
  if (!URL.canParse(address)) return false
  const { protocol, href } = new URL(address)
  if (!schemes.has(protocol)) return false
  const { response } = await dialog.showMessageBox({
    type: 'question',
    title: 'Bayledger',
    message: 'Open this outside Bayledger?',
    detail: href.slice(0, 500),
    buttons: ['Cancel', 'Open'],
    defaultId: 0,
    cancelId: 0,
    noLink: true,
  })
  if (response !== 1) return false
  await shell.openExternal(href)
  return true
}
