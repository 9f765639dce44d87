import { ORPCError } from '@orpc/client'
import { fileNameHeader } from '#model/contract/shell-bridge.ts'
import { sessionHeaders } from './session-token.ts'

/**
 * Sends a file to the host, streamed from disk, and returns the upload's name for `imports.preview`.
 * @param onProgress called with the fraction sent, 0 to 1.
 * @throws ORPCError with the host's code and sentence when it refuses the file or cannot be reached.
 */
export function uploadFile(file: File, onProgress?: (fraction: number) => void): Promise<string> {
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest()
    request.open('POST', '/upload')
    request.responseType = 'json'
    for (const [name, value] of Object.entries(sessionHeaders())) request.setRequestHeader(name, value)
    request.setRequestHeader('content-type', 'application/octet-stream')
    request.setRequestHeader(fileNameHeader, encodeURIComponent(file.name))
    request.upload.addEventListener('progress', ({ loaded, total }) =>
      onProgress?.(loaded / Math.max(1, total)),
    )
    request.addEventListener('load', () => {
      const answer: unknown = request.response
      if (request.status === 200 && isUploaded(answer)) resolve(answer.upload)
      else reject(refusalFrom(request.status, answer))
    })
    request.addEventListener('error', () => {
      reject(
        new ORPCError('UNREACHABLE', {
          status: 503,
          message: 'Bayledger did not take the file: it does not answer.',
        }),
      )
    })
    request.send(file)
  })
}

function isUploaded(answer: unknown): answer is { upload: string } {
  return (
    typeof answer === 'object' && answer !== null && 'upload' in answer && typeof answer.upload === 'string'
  )
}

function refusalFrom(status: number, answer: unknown): Error {
  const refusal = typeof answer === 'object' && answer !== null && 'json' in answer ? answer.json : null
  if (typeof refusal === 'object' && refusal !== null && 'code' in refusal && 'message' in refusal) {
    return new ORPCError(String(refusal.code), { status, message: String(refusal.message) })
  }
  return new ORPCError('UNREACHABLE', { status: 503, message: `The file was not taken (HTTP ${status}).` })
}
