import { type Severity, severities } from '#model/watch/alert.ts'
import { Mark, type Tone } from './mark.tsx'
import type { Shape } from './mark-shapes.tsx'

const marks: Record<Severity, { shape: Shape; tone: Tone }> = {
  stop: { shape: 'octagonBar', tone: 'stop' },
  act: { shape: 'trianglePoint', tone: 'act' },
  watch: { shape: 'ringDot', tone: 'watch' },
  'not proven': { shape: 'diamondAsk', tone: 'unproven' },
}

interface SeverityMarkProps {
  severity: Severity
  size?: number
  bare?: boolean
}

/** How much an alert presses: its mark and its word. */
export function SeverityMark({ severity, size, bare = false }: SeverityMarkProps) {
  return <Mark {...marks[severity]} word={severities[severity]} size={size} bare={bare} />
}
