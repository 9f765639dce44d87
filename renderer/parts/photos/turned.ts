/** Size of a picture [px] after quarter turns to the right. */
export function turnedSize(widthPx: number, heightPx: number, quarterTurns: number) {
  return quarterTurns % 2 === 0 ? { width: widthPx, height: heightPx } : { width: heightPx, height: widthPx }
}

/** The SVG transform that turns a picture to the right and puts its corner back at the origin. */
export function turnTransform(widthPx: number, heightPx: number, quarterTurns: number): string {
  switch (quarterTurns % 4) {
    case 1:
      return `translate(${heightPx} 0) rotate(90)`
    case 2:
      return `translate(${widthPx} ${heightPx}) rotate(180)`
    case 3:
      return `translate(0 ${widthPx}) rotate(270)`
    default:
      return ''
  }
}

/** A step on the turned picture, as a step on the picture before the turn. */
export function stepBeforeTurn(dx: number, dy: number, quarterTurns: number): { dx: number; dy: number } {
  const steps = [
    { dx, dy },
    { dx: dy, dy: -dx },
    { dx: -dx, dy: -dy },
    { dx: -dy, dy: dx },
  ] as const
  return steps[quarterTurns % 4]!
}
