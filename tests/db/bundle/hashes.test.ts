import { createHash, createPrivateKey, createPublicKey, sign } from 'node:crypto'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bytesOfHex, hexOf } from '#db/bundle/bytes.ts'
import { MerkleTree } from '#db/bundle/merkle.ts'
import { nodeHashing, publicKeyPrefix } from '#db/bundle/node-hashing.ts'
import { startPlainSha256 } from '#db/bundle/sha256.ts'

/** The eight leaves and roots that implementations of Certificate Transparency test with (from memory: a wrong digit could not agree). */
const leaves = [
  '',
  '00',
  '10',
  '2021',
  '3031',
  '40414243',
  '5051525354555657',
  '606162636465666768696a6b6c6d6e6f',
]
const roots = [
  'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
  '6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d',
  'fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125',
  'aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77',
  'd37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7',
  '4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4',
  '76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef',
  'ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c',
  '5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328',
]

function treeOf(given: readonly Uint8Array[]): MerkleTree {
  const tree = new MerkleTree(nodeHashing.sha256)
  for (const leaf of given) tree.add(leaf)
  return tree
}

/** RFC 6962, 2.1, word for word: slow, and with all leaves in memory. */
function rootByTheBook(given: readonly Uint8Array[]): string {
  const sha = (...parts: Uint8Array[]) => createHash('sha256').update(Buffer.concat(parts)).digest()
  const root = (some: readonly Uint8Array[]): Buffer => {
    if (some.length === 0) return sha()
    if (some.length === 1) return sha(Uint8Array.of(0), some[0]!)
    let split = 1
    while (split * 2 < some.length) split *= 2
    return sha(Uint8Array.of(1), root(some.slice(0, split)), root(some.slice(split)))
  }
  return root(given).toString('hex')
}

describe('hashes of a bundle', () => {
  it('MRK-1: the roots of the first 0 to 8 known leaves are the known ones', () => {
    for (const [size, root] of roots.entries()) {
      expect(hexOf(treeOf(leaves.slice(0, size).map(bytesOfHex)).root()), `${size} leaves`).toBe(root)
    }
  })

  it('MRK-2: for any leaves the root is that of the definition', () => {
    const bytes = fc.uint8Array({ maxLength: 40 })
    fc.assert(
      fc.property(fc.array(bytes, { maxLength: 70 }), (given) => {
        expect(hexOf(treeOf(given).root())).toBe(rootByTheBook(given))
      }),
    )
  })

  it('MRK-3: another order, or one leaf more, is another root', () => {
    const given = leaves.slice(1).map(bytesOfHex)
    const root = hexOf(treeOf(given).root())
    expect(hexOf(treeOf([...given].reverse()).root())).not.toBe(root)
    expect(hexOf(treeOf([...given, Uint8Array.of(1)]).root())).not.toBe(root)
  })

  it('SHA-1: the SHA-256 for pages is that of Node, however the bytes are cut', () => {
    const pieces = fc.array(fc.uint8Array({ maxLength: 200 }), { maxLength: 12 })
    fc.assert(
      fc.property(pieces, (given) => {
        const running = startPlainSha256()
        for (const piece of given) running.update(piece)
        expect(hexOf(running.digest())).toBe(createHash('sha256').update(Buffer.concat(given)).digest('hex'))
      }),
    )
    for (const size of [0, 55, 56, 63, 64, 65, 119, 120, 1_000_001]) {
      const running = startPlainSha256()
      const bytes = Buffer.alloc(size, 0x61)
      running.update(bytes)
      expect(hexOf(running.digest()), `${size} bytes`).toBe(createHash('sha256').update(bytes).digest('hex'))
    }
  })

  it('SIG-1: the first vector of RFC 8032, 7.1 (from memory) is signed and found good; another message is not', async () => {
    const secret = '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60'
    const publicKey = 'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a'
    const signature =
      'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b'
    const der = Buffer.from(`302e020100300506032b657004220420${secret}`, 'hex')
    const key = createPrivateKey({ key: der, format: 'der', type: 'pkcs8' })
    const spki = createPublicKey(key).export({ type: 'spki', format: 'der' })
    expect(spki.toString('hex')).toBe(publicKeyPrefix.toString('hex') + publicKey)
    expect(sign(null, new Uint8Array(0), key).toString('hex')).toBe(signature)
    const signed = { publicKey: bytesOfHex(publicKey), signature: bytesOfHex(signature) }
    expect(await nodeHashing.checkSignature({ ...signed, message: new Uint8Array(0) })).toBe('good')
    expect(await nodeHashing.checkSignature({ ...signed, message: Uint8Array.of(1) })).toBe('wrong')
  })
})
