import type { BodyOf } from '../record/kinds.ts'

/** Two points of a photo [px]. */
export interface PhotoLine {
  fromX: number
  fromY: number
  toX: number
  toY: number
}

export type KnownLength = NonNullable<BodyOf<'photo-added'>['scale']>[number]

/** A length read off a photo [mm], and how far placing each point one pixel beside moves it [mm]. */
export interface ReadLength {
  lengthMm: number
  pixelDoubtMm: number
}

/** How long a line of a photo is [px]. */
export function pixelsOfLine({ fromX, fromY, toX, toY }: PhotoLine): number {
  return Math.hypot(toX - fromX, toY - fromY)
}

/**
 * How much of the floor one pixel covers: the least-squares line through the origin over the known lengths, so that a
 * longer one counts more. It holds where the camera looked square onto one plane; a tilt of 10° shortens lengths along
 * it by 1.5 % (cosine).
 * @param known lines with their lengths [px, mm]
 * @returns [mm/px]; null without a known length
 * @source ordinary least squares without intercept: b = Σxy / Σx² @provenance common practice
 */
export function mmPerPixel(known: readonly KnownLength[] | undefined): number | null {
  let products = 0
  let squares = 0
  for (const line of known ?? []) {
    const pixels = pixelsOfLine(line)
    products += pixels * line.lengthMm
    squares += pixels * pixels
  }
  return squares === 0 ? null : products / squares
}

/**
 * The length of a line by the known lengths of its photo. The doubt adds in quadrature what one pixel at each end does to
 * the line and to the scale; tilt and lens come on top and are not in it.
 * @returns null without a known length
 */
export function readLength(line: PhotoLine, known: readonly KnownLength[] | undefined): ReadLength | null {
  const scale = mmPerPixel(known)
  if (scale === null) return null
  const pixels = pixelsOfLine(line)
  const scalePixels = Math.hypot(...(known ?? []).map(pixelsOfLine))
  const bothEnds = Math.SQRT2
  const doubt = scale * bothEnds * Math.hypot(1, pixels / scalePixels)
  return { lengthMm: pixels * scale, pixelDoubtMm: doubt }
}
