import { quantityText } from '../../parts/number-text.ts'

/** "412 kB", "2.3 MB": the size of a file as people say it, in thousands. */
export function sizeText(bytes: number): string {
  return bytes < 1e6
    ? quantityText(Math.max(1, Math.round(bytes / 1e3)), 'kB', 0)
    : quantityText(bytes / 1e6, 'MB', 1)
}
