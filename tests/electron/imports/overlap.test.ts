import { describe, expect, it } from 'vitest'
import { type KnownSeries, overlapWith } from '#electron/imports/overlap.ts'

const MINUTE = 60_000
const series = (from: number, count: number, value: (minute: number) => number) => ({
  at: Float64Array.from({ length: count }, (_, i) => (from + i) * MINUTE),
  value: Float64Array.from({ length: count }, (_, i) => value(from + i)),
})
const wave = (minute: number) => 18 + (minute % 13) / 10
const known = (from: number, count: number): KnownSeries => ({
  quantity: 'airC',
  from: 'room.csv, read on 3 March 2026',
  ...series(from, count, wave),
})

describe('readings that the record holds already', () => {
  it('OVL-1: a logger read out twice gives only what is new the second time', () => {
    const overlap = overlapWith([known(0, 100)], { quantity: 'airC', ...series(50, 100, wave) })
    expect([...overlap.known]).toEqual(Array.from({ length: 100 }, (_, i) => (i < 50 ? 1 : 0)))
    expect(overlap.from).toEqual(['room.csv, read on 3 March 2026'])
  })

  it('OVL-2: two loggers of one room that agree now and then are both kept whole', () => {
    const other = (minute: number) => (minute % 3 === 0 ? wave(minute) : wave(minute) + 0.1)
    const overlap = overlapWith([known(0, 100)], { quantity: 'airC', ...series(0, 100, other) })
    expect(overlap.known.some((one) => one === 1)).toBe(false)
    expect(overlap.from).toEqual([])
  })

  it('OVL-3: another quantity of the same values is no repetition', () => {
    const overlap = overlapWith([known(0, 100)], { quantity: 'outsideC', ...series(0, 100, wave) })
    expect(overlap.from).toEqual([])
  })

  it('OVL-4: readings that only touch in one or two instants are kept', () => {
    const overlap = overlapWith([known(0, 100)], { quantity: 'airC', ...series(98, 50, wave) })
    expect(overlap.from).toEqual([])
  })
})
