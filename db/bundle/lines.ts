import { joined } from './bytes.ts'
import { BundleFault } from './fault.ts'
import { limits } from './format.ts'

const newline = 10

/** Cuts bytes that come piece by piece into lines; each ends with a newline, the last one too. */
export function lineCutter(name: string, onLine: (line: Uint8Array) => void) {
  let begun: Uint8Array[] = []
  let begunBytes = 0
  const requireShort = (bytes: number) => {
    if (bytes > limits.lineBytes)
      throw new BundleFault(`A line of ${name} is longer than ${limits.lineBytes} bytes.`)
  }
  return {
    update: (piece: Uint8Array) => {
      let from = 0
      for (let end = piece.indexOf(newline); end !== -1; end = piece.indexOf(newline, from)) {
        const part = piece.subarray(from, end)
        from = end + 1
        requireShort(begunBytes + part.length)
        onLine(begun.length === 0 ? part : joined([...begun, part]))
        begun = []
        begunBytes = 0
      }
      if (from === piece.length) return
      // Copied, because whoever gives the bytes may use their memory again.
      begun.push(piece.slice(from))
      begunBytes += piece.length - from
      requireShort(begunBytes)
    },
    end: () => {
      if (begunBytes > 0) throw new BundleFault(`${name} ends in the middle of a line.`)
    },
  }
}
