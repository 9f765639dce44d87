import { type Ensemble, runGrid } from '../forecast/ensemble.ts'
import type { GridRunner } from '../forecast/forecast.ts'

/** Returns a runner of the grid that tells how many of its diffusivity factors are done. The runs are the same. */
export function gridWithProgress(onProgress: (done: number, of: number) => void): GridRunner {
  return (question) => {
    const { kappas } = question
    const parts = kappas.map((kappa, i): Ensemble => {
      const part = runGrid({ ...question, kappas: [kappa] })
      onProgress(i + 1, kappas.length)
      return part
    })
    return { ...parts[0]!, runs: parts.flatMap(({ runs }) => runs) }
  }
}
