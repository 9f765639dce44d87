import type { ReactNode } from 'react'
import type { SymptomCode } from '#model/record/words.ts'
import classes from './symptoms.module.css'

/**
 * What each symptom looks like, on a field of 96 × 64: seen from above where it is found by looking down, cut through
 * where it is found by scratching, tapping or digging.
 */
export const scenes: Record<SymptomCode, ReactNode> = {
  S01: (
    <>
      <Slab top={26} />
      <Grains x={6} y={27} across={21} down={2} />
      <path d="M30 20c-4-4 4-6 0-11M48 20c-4-4 4-6 0-14M66 20c-4-4 4-6 0-11" className={classes.soft} />
    </>
  ),
  S02: (
    <>
      <Slab top={20} />
      <Grains x={6} y={22} across={21} down={8} />
      <path d="M48 4v38l3 9 3-9V4M44 4h14" className={classes.tool} />
    </>
  ),
  S03: (
    <>
      <path d="M4 18h88v14H4z" className={classes.body} />
      <path d="M4 32v20l8 4 9-3 7 5 10-4 9 5 8-5 9 4 8-5 10 4 10-3V32" className={classes.edge} />
      <Grains x={7} y={35} across={21} down={5} />
    </>
  ),
  S04: (
    <>
      <Bay />
      <path
        d="M4 20 18 16l12 8 14-6 10 8 16-8 22 6M6 42l14-4 12 8 16-6 12 8 14-8 18 4M18 16l2 22M30 24l2 22M44 18l4 22M54 26l6 22M70 18l4 22M18 16 14 4M44 18 48 4M70 18 74 4M20 38l-4 22M32 46l4 14M60 48l-2 12M74 40l6 20"
        className={classes.hair}
      />
    </>
  ),
  S05: (
    <>
      <Bay />
      <path
        d="M16 50c8-8 12-14 16-26-8 7-14 15-16 26zM36 54c7-10 11-18 13-32-8 9-12 19-13 32zM56 50c7-9 11-17 14-30-8 8-12 18-14 30zM74 52c5-7 8-14 9-25-6 7-9 15-9 25z"
        className={classes.gap}
      />
    </>
  ),
  S06: (
    <>
      <Bay />
      <path d="m46 4 4 10-5 9 5 10-4 9 5 9-3 9" className={classes.crack} />
    </>
  ),
  S07: (
    <>
      <path d="M4 4h36v20h16V4h36v56H56V40H40v20H4z" className={classes.body} />
      <path d="m47 24 3 5-4 5 3 6" className={classes.crack} />
    </>
  ),
  S08: (
    <>
      <Bay />
      <path d="M4 14h70a8 8 0 0 1 0 18H24a9 9 0 0 0 0 18h68" className={classes.pipe} />
      <path d="m10 12 12 3 14-3 12 4 14-3 12 2" className={classes.crack} />
    </>
  ),
  S09: (
    <>
      <path d="M4 4h88v56H46V34H4z" className={classes.body} />
      <path d="m46 34 7-5 3-6 8-4 4-7 9-3" className={classes.crack} />
    </>
  ),
  S10: (
    <>
      <Base y={50} />
      <path
        d="M4 22c14 12 30 16 44 16s30-4 44-16v12C78 46 62 50 48 50S18 46 4 34z"
        className={classes.body}
      />
      <path d="M12 46V38M84 46V38M9 41l3-4 3 4M81 41l3-4 3 4" className={classes.tool} />
    </>
  ),
  S11: (
    <>
      <Base y={46} />
      <path d="M4 22h88v24H66c-8-7-28-7-36 0H4z" className={classes.body} />
      <path
        d="M40 17a12 12 0 0 1 16 0M35 12.5a19 19 0 0 1 26 0M30 8a26 26 0 0 1 36 0"
        className={classes.soft}
      />
    </>
  ),
  S12: (
    <>
      <Bay />
      <path d="M34 60h28" className={classes.door} />
      <path d="M34 60V50M62 60V50" className={classes.edge} />
      <Grains x={37} y={8} across={3} down={13} />
      <Grains x={53} y={8} across={3} down={13} />
    </>
  ),
  S13: (
    <>
      <path d="M4 24h18l8 14 10-14h18l6 10 8-10h20v32H4z" className={classes.body} />
      <path d="m25 18 6-9 9 8-4 4zM64 20l4-6 7 5" className={classes.body} />
    </>
  ),
  S14: (
    <>
      <Bay />
      <path
        d="M20 34c-6-16 14-24 26-18 8-10 34-2 28 14 8 14-14 24-26 16-10 8-26 2-28-12z"
        className={classes.wet}
      />
      <path d="M34 26v8M30 30h8M50 34v8M46 38h8M60 22v8M56 26h8M35 40v6M32 43h6" className={classes.bloom} />
    </>
  ),
  S15: (
    <>
      <path d="M4 44h88v14H4z" className={classes.under} />
      <path d="m4 58 8-14 8 14 8-14 8 14 8-14 8 14 8-14 8 14 8-14 8 14 8-14" className={classes.soft} />
      <path
        d="M4 22c18 2 26 14 44 14s26-12 44-14v14c-18 2-26 14-44 14S22 38 4 36z"
        className={classes.body}
      />
      <path d="m47 36 3 5-4 4 3 5" className={classes.crack} />
      <path d="M48 4v22M42 20l6 8 6-8" className={classes.tool} />
    </>
  ),
  S16: (
    <>
      <Bay />
      <path
        d="M48 32 30 14M48 32 24 34M48 32 34 54M48 32l8 22M48 32l24 8M48 32l20-18M48 32l-2-24"
        className={classes.crack}
      />
      <circle cx={48} cy={32} r={7} className={classes.dent} />
    </>
  ),
  S17: (
    <>
      <Bay />
      <Grains x={28} y={9} across={4} down={12} />
      <Grains x={72} y={9} across={4} down={12} />
      <path d="M26 4v56M48 4v56M70 4v56" className={classes.seam} />
    </>
  ),
}

/** A bay from above. */
function Bay() {
  return <path d="M4 4h88v56H4z" className={classes.body} />
}

/** A layer cut through, down to the lower edge. */
function Slab({ top }: { top: number }) {
  return <path d={`M4 ${top}h88V58H4z`} className={classes.body} />
}

function Base({ y }: { y: number }) {
  return <path d={`M2 ${y}h92v10H2z`} className={classes.under} />
}

/** Loose material: staggered grains, four apart. */
function Grains({ x, y, across, down }: { x: number; y: number; across: number; down: number }) {
  const dots = Array.from({ length: across * down }, (_, i) => {
    const [column, row] = [i % across, Math.floor(i / across)]
    return `M${x + column * 4 + (row % 2) * 2} ${y + row * 4}v.01`
  })
  return <path d={dots.join('')} className={classes.grain} />
}
