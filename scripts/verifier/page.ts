import { readBundle } from '#db/bundle/read-bundle.ts'
import { pageHashing } from './page-hashing.ts'
import { type ResultWords, resultWords } from './result-words.ts'

/** The page of the verifier: a file is chosen or dropped, checked as it is read, and told about in words. */
const pick = elementOf('pick', HTMLInputElement)
const noted = elementOf('noted', HTMLInputElement)
const result = elementOf('result', HTMLElement)
let chosen = 0

pick.addEventListener('change', () => {
  const file = pick.files?.[0]
  if (file !== undefined) void check(file)
})
document.addEventListener('dragover', (event) => event.preventDefault())
document.addEventListener('drop', (event) => {
  event.preventDefault()
  const file = event.dataTransfer?.files[0]
  if (file !== undefined) void check(file)
})

async function check(file: File): Promise<void> {
  chosen += 1
  const own = chosen
  const isLatest = () => own === chosen
  const onProgress = (done: number) => {
    if (isLatest()) show('wait', `Checking ${file.name}: ${Math.floor((100 * done) / file.size)} %`, '', [])
  }
  onProgress(0)
  try {
    const report = await readBundle(piecesOf(file), pageHashing, { onProgress })
    const typed = noted.value.trim()
    const words = resultWords(report, typed === '' ? null : typed)
    if (isLatest()) show(words.isGood ? 'good' : 'bad', words.headline, words.because, words.facts)
  } catch (cause) {
    const detail = cause instanceof Error ? cause.message : String(cause)
    if (isLatest()) show('bad', 'NOT CHECKED', `The file could not be read: ${detail}`, [])
  }
}

async function* piecesOf(file: File): AsyncGenerator<Uint8Array> {
  const reader = file.stream().getReader()
  for (let next = await reader.read(); !next.done; next = await reader.read()) yield next.value
}

function show(tone: string, headline: string, because: string, facts: ResultWords['facts']): void {
  result.dataset.tone = tone
  const list = document.createElement('dl')
  for (const [name, value] of facts) list.append(withText('dt', name), withText('dd', value))
  result.replaceChildren(withText('h2', headline), withText('p', because), list)
}

function withText(tag: string, text: string): HTMLElement {
  const element = document.createElement(tag)
  element.textContent = text
  return element
}

function elementOf<T extends HTMLElement>(id: string, type: new () => T): T {
  const element = document.getElementById(id)
  if (element instanceof type) return element
  throw new Error(`The page lacks its part “${id}”.`)
}
