import type { Pattern } from 'pdfmake/interfaces.js'

const hatch = (pattern: string, step = 9): Pattern => ({
  boundingBox: [0, 0, step, step],
  xStep: step,
  yStep: step,
  pattern,
})

/** Hatches that tell states apart in a grey copy; each is painted in the colour that goes with it. */
export const hatches: Record<string, Pattern> = {
  rising: hatch('0.5 w 0 0 m 9 9 l S'),
  falling: hatch('0.5 w 0 9 m 9 0 l S'),
  crossed: hatch('0.5 w 0 0 m 9 9 l S 0 9 m 9 0 l S'),
  level: hatch('0.5 w 0 3.5 m 7 3.5 l S', 7),
  upright: hatch('0.5 w 3.5 0 m 3.5 7 l S', 7),
  dotted: hatch('3 3 1.3 1.3 re f', 8),
}
