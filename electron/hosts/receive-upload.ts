import { InputError } from '#model/errors.ts'
import type { Services } from '../api/services.ts'
import { type Refusal, refusals } from './refusal.ts'

/**
 * Takes a file in for either host and returns the name under which `imports.preview` finds it, or why it was refused.
 * @param encodedName the file's name as the page sent it, percent-encoded; null when it sent none.
 */
export async function receiveUpload(
  services: Services,
  bytes: AsyncIterable<Uint8Array>,
  encodedName: string | null,
  signal: AbortSignal,
): Promise<{ upload: string } | { refusal: Refusal }> {
  const fileName = decodedName(encodedName)
  if (fileName === null)
    return { refusal: { ...refusals.badRequest, message: 'The file came without its name.' } }
  try {
    const { id } = await services.uploads.receive(bytes, fileName, signal)
    return { upload: id }
  } catch (cause) {
    if (cause instanceof InputError) return { refusal: { ...refusals.tooLarge, message: cause.message } }
    if (signal.aborted)
      return { refusal: { ...refusals.badRequest, message: 'The file did not arrive whole.' } }
    const logId = services.log.keep('upload', cause)
    const message = `The file could not be stored. The log has it as ${logId}.`
    return { refusal: { status: 500, code: 'INTERNAL', message } }
  }
}

function decodedName(encoded: string | null): string | null {
  if (encoded === null || encoded === '') return null
  try {
    return decodeURIComponent(encoded)
  } catch (cause) {
    // Not percent-encoded text: it did not come from a page of ours.
    if (cause instanceof URIError) return null
    throw cause
  }
}
