import { createReadStream, existsSync, statSync } from 'node:fs'
import { nodeHashing } from '#db/bundle/node-hashing.ts'
import { readBundle } from '#db/bundle/read-bundle.ts'
import { resultWords } from './result-words.ts'

/** `node verify.mjs BUNDLE [FINGERPRINT]`: says whether a signed bundle is good. Ends with 0 when it is, with 1 otherwise. */
const [file, noted] = process.argv.slice(2)
process.exitCode = 1
if (file === undefined) {
  process.stderr.write('Say which file: node verify.mjs BUNDLE [FINGERPRINT THAT WAS NOTED]\n')
} else if (!existsSync(file) || !statSync(file).isFile()) {
  process.stderr.write(`${file} is not a file that is there.\n`)
} else {
  const report = await readBundle(createReadStream(file, { highWaterMark: 1024 * 1024 }), nodeHashing)
  const { isGood, headline, because, facts } = resultWords(report, noted ?? null)
  const lines = [headline, because, '', ...facts.map(([name, value]) => `${name}: ${value}`)]
  process.stdout.write(`${lines.join('\n').trimEnd()}\n`)
  if (isGood) process.exitCode = 0
}
