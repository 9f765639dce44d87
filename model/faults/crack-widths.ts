/** Widths at which the way of mending a crack changes. Our judgement; no screed standard gives a width that must be filled. */
export const crackWidths = {
  hairlineMm: 0.3,
  /** Below it no resin gets in. */
  resinReachMm: 0.2,
  widestFilledMm: 5,
  sandFilledFromMm: 2,
  /** Above this step two sides do not work together: grind, and tie across. */
  stepMm: 2,
} as const
