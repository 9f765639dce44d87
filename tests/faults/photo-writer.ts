import { closeSync, mkdirSync, openSync, writeSync } from 'node:fs'
import path from 'node:path'
import { keepPhoto, photoFile, sha256Hex } from '#db/index.ts'

/**
 * A program that keeps photos as fast as it can and says on its output which ones are kept. It is meant to be killed. As
 * "control" it writes under the photo's own name, half of it before it says so.
 */
const [file = '', mode = '', round = ''] = process.argv.slice(2)
const bytesOf = (i: number) => Buffer.from(`round ${round}, photo ${i} `.repeat(60_000))

if (mode === 'control') {
  const bytes = bytesOf(0)
  const sha256 = sha256Hex(bytes)
  const target = photoFile(file, sha256, 'image/jpeg')
  mkdirSync(path.dirname(target), { recursive: true })
  const handle = openSync(target, 'w')
  writeSync(handle, bytes.subarray(0, bytes.length >> 1))
  writeSync(1, `${sha256}\n`)
  setInterval(() => closeSync(handle), 60_000)
} else {
  for (let i = 0; ; i++) writeSync(1, `${keepPhoto(file, bytesOf(i), 'image/jpeg').sha256}\n`)
}
