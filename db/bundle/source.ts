import { joined } from './bytes.ts'

/** The bytes of a bundle as they come, taken in portions of one's own. */
export class ByteSource {
  readonly #chunks: AsyncIterator<Uint8Array>
  #rest: Uint8Array = new Uint8Array(0)
  #taken = 0

  constructor(chunks: AsyncIterable<Uint8Array>) {
    this.#chunks = chunks[Symbol.asyncIterator]()
  }

  /** How many bytes were taken so far. */
  get taken(): number {
    return this.#taken
  }

  /** Gives the next `count` bytes to `sink`, piece by piece. Returns false when they end before. */
  async pass(count: number, sink: (piece: Uint8Array) => void): Promise<boolean> {
    let wanted = count
    while (wanted > 0) {
      if (this.#rest.length === 0 && !(await this.#more())) return false
      const piece = this.#rest.subarray(0, wanted)
      this.#rest = this.#rest.subarray(piece.length)
      this.#taken += piece.length
      wanted -= piece.length
      sink(piece)
    }
    return true
  }

  /** The next `count` bytes in one piece; fewer when they end before. */
  async take(count: number): Promise<Uint8Array<ArrayBuffer>> {
    const pieces: Uint8Array[] = []
    await this.pass(count, (piece) => pieces.push(piece))
    return joined(pieces)
  }

  async isAtEnd(): Promise<boolean> {
    return this.#rest.length === 0 && !(await this.#more())
  }

  /** Tells whoever gives the bytes that no more are wanted. */
  async leave(): Promise<void> {
    await this.#chunks.return?.()
  }

  async #more(): Promise<boolean> {
    for (;;) {
      const { done, value } = await this.#chunks.next()
      if (done === true) return false
      if (value.length === 0) continue
      this.#rest = value
      return true
    }
  }
}
