import { bayPlans } from './scenario.ts'

/** Room around the plan, and pixels of a metre. */
const frame = { left: 120, top: 260, pxPerM: 80 }
const spacingM = 0.2
const clearOfEdgeM = 0.2
const colours = ['#0b5d66', '#8f1d14', '#734600', '#34477a']

interface Area {
  x: number
  y: number
  w: number
  h: number
}

/** An invented plan of heating circuits for the bays of one zone: two circuits a bay, to and fro. */
export function circuitPlanDrawing(zone: string, plainly: string): string {
  const bays = bayPlans.filter((bay) => bay.zone === zone)
  const circuits = bays.flatMap(({ rect: { x, y, w, h } }) => [
    { x, y, w: w / 2, h },
    { x: x + w / 2, y, w: w / 2, h },
  ])
  const px = (m: number) => m * frame.pxPerM
  const rects = bays.map(({ name, rect }) => {
    const [x, y] = [frame.left + px(rect.x), frame.top + px(rect.y)]
    return `<rect x="${x}" y="${y}" width="${px(rect.w)}" height="${px(rect.h)}" fill="#f3f0e8" stroke="#222" stroke-width="4"/>
      <text x="${x + px(rect.w) / 2}" y="${y - 56}" font-size="32" font-weight="bold" text-anchor="middle">Bay ${name}</text>`
  })
  const pipes = circuits.map((area, i) => {
    const points = toAndFro(area)
    const drawn = points.map(([x, y]) => `${frame.left + px(x)},${frame.top + px(y)}`).join(' ')
    const middle = frame.left + px(area.x + area.w / 2)
    return `<polyline points="${drawn}" fill="none" stroke="${colours[i % colours.length]}" stroke-width="4"/>
      <text x="${middle}" y="${frame.top - 18}" font-size="26" text-anchor="middle">Circuit ${i + 1}, ${Math.round(lengthOf(points))} m</text>`
  })
  return `<svg xmlns="http://www.w3.org/2000/svg" width="1200" height="900" font-family="sans-serif">
    <rect width="100%" height="100%" fill="#fff"/>
    <text x="600" y="60" font-size="40" font-weight="bold" text-anchor="middle" fill="#8f1d14">${plainly}</text>
    <text x="600" y="120" font-size="34" text-anchor="middle">Heating circuits, pipes ${spacingM * 1000} mm apart</text>
    ${rects.join('')}${pipes.join('')}
    <text x="600" y="800" font-size="28" text-anchor="middle">Manifold outside Bay ${bays[0]?.name ?? ''}. Invented.</text></svg>`
}

/** The corners of a pipe that runs to and fro over an area, clear of its edges [m]. */
function toAndFro({ x, y, w, h }: Area): [x: number, y: number][] {
  const [west, east] = [x + clearOfEdgeM, x + w - clearOfEdgeM]
  const runs = Math.floor((h - 2 * clearOfEdgeM) / spacingM) + 1
  return Array.from({ length: runs }, (_, i): [number, number][] => {
    const at = y + clearOfEdgeM + i * spacingM
    return i % 2 === 0
      ? [
          [west, at],
          [east, at],
        ]
      : [
          [east, at],
          [west, at],
        ]
  }).flat()
}

/** [m] */
function lengthOf(points: readonly [x: number, y: number][]): number {
  return points.slice(1).reduce((sum, [x, y], i) => sum + Math.hypot(x - points[i]![0], y - points[i]![1]), 0)
}
