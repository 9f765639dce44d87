import type { ReactNode } from 'react'

/**
 * Our own drawn marks on a 24 × 24 field. Each has a silhouette of its own, so that it is told apart without colour,
 * at arm's length, and in a black and white print.
 */
const inner = { stroke: 'var(--paper)', strokeWidth: 2.4, fill: 'none', strokeLinecap: 'round' } as const
const line = {
  stroke: 'currentColor',
  strokeWidth: 2.2,
  fill: 'none',
  strokeLinecap: 'round',
  strokeLinejoin: 'round',
} as const

export const shapes = {
  octagonBar: (
    <>
      <path d="M8 2h8l6 6v8l-6 6H8l-6-6V8z" fill="currentColor" />
      <path d="M7 12h10" {...inner} strokeWidth={3} />
    </>
  ),
  trianglePoint: (
    <>
      <path d="M12 2.5 23 21.5H1z" fill="currentColor" />
      <path d="M12 9.5v5.5" {...inner} />
      <path d="M12 18.4v.1" {...inner} strokeWidth={2.8} />
    </>
  ),
  ringDot: (
    <>
      <circle cx="12" cy="12" r="9" {...line} />
      <circle cx="12" cy="12" r="3.6" fill="currentColor" />
    </>
  ),
  diamondAsk: (
    <>
      <path d="M12 1.5 22.5 12 12 22.5 1.5 12z" {...line} />
      <path d="M9.4 10a2.6 2.6 0 1 1 3.4 2.6c-.6.2-.8.6-.8 1.3" {...line} strokeWidth={1.9} />
      <path d="M12 16.9v.1" {...line} strokeWidth={2.4} />
    </>
  ),
  discTick: (
    <>
      <circle cx="12" cy="12" r="10.5" fill="currentColor" />
      <path d="m7 12.4 3.4 3.4 6.6-7" {...inner} strokeLinejoin="round" />
    </>
  ),
  squareCross: (
    <>
      <rect x="2" y="2" width="20" height="20" rx="1.5" fill="currentColor" />
      <path d="m7.5 7.5 9 9m0-9-9 9" {...inner} />
    </>
  ),
  dashedSquare: <rect x="3" y="3" width="18" height="18" {...line} strokeDasharray="4 3.2" />,
  sheetOver: (
    <>
      <path d="M1.5 10.5C5 4 19 4 22.5 10.5" {...line} />
      <path d="M4 15h16v6H4z" fill="currentColor" />
    </>
  ),
  risingVapour: (
    <>
      <path d="M4 18h16v3.5H4z" fill="currentColor" />
      <path d="M7 14c-2-2.2 2-3.6 0-6M12 14c-2-2.8 2-4.6 0-10M17 14c-2-2.2 2-3.6 0-6" {...line} />
    </>
  ),
  layers: (
    <>
      <path d="M2 15.5h20V21H2z" fill="currentColor" />
      <path d="M2 9h20v3.5H2z" fill="currentColor" />
      <path d="M2 4h20" {...line} />
    </>
  ),
  emptyRing: <circle cx="12" cy="12" r="9" {...line} />,
} as const satisfies Record<string, ReactNode>

export type Shape = keyof typeof shapes
