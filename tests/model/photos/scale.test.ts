import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { mmPerPixel, pixelsOfLine, readLength } from '#model/photos/scale.ts'

const line = (fromX: number, fromY: number, toX: number, toY: number) => ({ fromX, fromY, toX, toY })

describe('a width read off a photo', () => {
  it('SCALE-1: a 3-4-5 triangle: 50 px that are 100 mm make 2 mm a pixel, so 25 px are 50 mm', () => {
    const known = [{ ...line(10, 10, 40, 50), lengthMm: 100 }]
    expect(mmPerPixel(known)).toBe(2)
    expect(readLength(line(0, 0, 15, 20), known)?.lengthMm).toBe(50)
  })

  it('SCALE-2: without a known length nothing is read', () => {
    expect(mmPerPixel(undefined)).toBeNull()
    expect(mmPerPixel([])).toBeNull()
    expect(readLength(line(0, 0, 5, 5), [])).toBeNull()
  })

  it('SCALE-3: two known lengths: least squares by hand, (100·10 + 200·22) / (100² + 200²)', () => {
    const known = [
      { ...line(0, 0, 100, 0), lengthMm: 10 },
      { ...line(0, 0, 0, 200), lengthMm: 22 },
    ]
    expect(mmPerPixel(known)).toBeCloseTo(5400 / 50_000, 12)
  })

  it('SCALE-4: a turned or moved photo gives the same length', () => {
    const px = fc.integer({ min: 0, max: 4000 })
    fc.assert(
      fc.property(px, px, px, px, fc.double({ min: 0, max: 6.28, noNaN: true }), (ax, ay, bx, by, angle) => {
        fc.pre(ax !== bx || ay !== by)
        const turned = ([x, y]: [number, number]): [number, number] => [
          x * Math.cos(angle) - y * Math.sin(angle) + 7,
          x * Math.sin(angle) + y * Math.cos(angle) - 3,
        ]
        const [a, b] = [turned([ax, ay]), turned([bx, by])]
        const known = [{ ...line(0, 0, 300, 400), lengthMm: 250 }]
        const before = readLength(line(ax, ay, bx, by), known)!.lengthMm
        const after = readLength(line(a[0], a[1], b[0], b[1]), known)!.lengthMm
        expect(Math.abs(after - before)).toBeLessThan(1e-6)
      }),
    )
  })

  it('SCALE-5: the doubt covers what moving every point by one pixel does, in all directions tried', () => {
    const known = [{ ...line(100, 100, 700, 100), lengthMm: 150 }]
    const crack = line(200, 300, 200, 320)
    const read = readLength(crack, known)!
    expect(read.lengthMm).toBeCloseTo(5, 9)
    // Both ends outwards by one pixel: the worst case of the line itself is √2 times the doubt of independent ends.
    const longer = readLength(line(200, 299, 200, 321), known)!.lengthMm
    expect(longer - read.lengthMm).toBeCloseTo(0.5, 9)
    expect(read.pixelDoubtMm).toBeGreaterThan((longer - read.lengthMm) / Math.SQRT2)
    expect(read.pixelDoubtMm).toBeLessThan(longer - read.lengthMm)
    expect(pixelsOfLine(crack)).toBe(20)
  })
})
