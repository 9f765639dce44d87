/** The project of this list that was looked at last, or its first. */
export function chosenOf<P extends { id: string }>(projects: readonly P[], wanted: string | null): P | null {
  return projects.find(({ id }) => id === wanted) ?? projects[0] ?? null
}
