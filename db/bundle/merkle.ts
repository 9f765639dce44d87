/**
 * The root of a Merkle tree whose leaves come one by one; the tree itself is never in memory, only one hash for each
 * power of two in the number of leaves.
 * @source RFC 6962, 2.1 (kept by RFC 9162, 2.1.1): leaf SHA-256(0x00 ‖ d), node SHA-256(0x01 ‖ left ‖ right), split at
 *   the largest power of two below the number of leaves; the root of no leaves is SHA-256 of nothing
 * @accuracy against the roots of the RFC's known eight leaves (from memory) and another implementation in Python
 * @provenance published; read from memory
 */
export class MerkleTree {
  readonly #sha256: (bytes: Uint8Array) => Uint8Array
  /** Roots of full subtrees, largest first; their sizes are the powers of two that add up to `size`. */
  readonly #full: Uint8Array[] = []
  #size = 0

  constructor(sha256: (bytes: Uint8Array) => Uint8Array) {
    this.#sha256 = sha256
  }

  get size(): number {
    return this.#size
  }

  add(leaf: Uint8Array): void {
    let root = this.#sha256(prefixed(0, leaf))
    // Each trailing one of the old size is a full subtree that the new leaf completes.
    for (let size = this.#size; size % 2 === 1; size = (size - 1) / 2) {
      root = this.#node(this.#full.pop()!, root)
    }
    this.#full.push(root)
    this.#size += 1
  }

  root(): Uint8Array {
    const last = this.#full.at(-1)
    if (last === undefined) return this.#sha256(new Uint8Array(0))
    return this.#full.slice(0, -1).reduceRight((right, left) => this.#node(left, right), last)
  }

  #node(left: Uint8Array, right: Uint8Array): Uint8Array {
    const bytes = new Uint8Array(65)
    bytes[0] = 1
    bytes.set(left, 1)
    bytes.set(right, 33)
    return this.#sha256(bytes)
  }
}

function prefixed(first: number, rest: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(rest.length + 1)
  bytes[0] = first
  bytes.set(rest, 1)
  return bytes
}
