export interface Band {
  usual: readonly [least: number, most: number]
  act: readonly [least: number, most: number]
}

export interface Judgement {
  tone: 'good' | 'act' | 'stop'
  meaning: string
}

interface BandWords {
  within: string
  low: string
  high: string
  farLow: string
  farHigh: string
}

/** What a number means against two bands: inside the usual one, beside it, or so far off that the batch needs an act. */
export function judge(value: number, { usual, act }: Band, words: BandWords): Judgement {
  if (value < act[0]) return { tone: 'stop', meaning: words.farLow }
  if (value > act[1]) return { tone: 'stop', meaning: words.farHigh }
  if (value < usual[0]) return { tone: 'act', meaning: words.low }
  if (value > usual[1]) return { tone: 'act', meaning: words.high }
  return { tone: 'good', meaning: words.within }
}
