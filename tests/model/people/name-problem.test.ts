import { describe, expect, it } from 'vitest'
import { type NamedPerson, nameProblem } from '#model/people/index.ts'

const named = (id: string, name: string): NamedPerson => ({ id, name })
const people = [named('a', 'Ida Marsh'), named('b', 'Nora Vale')]

describe('the names of a project', () => {
  it('NAME-1: a name that is taken is refused, whatever its case, its blanks or the way a letter is coded', () => {
    for (const name of ['Ida Marsh', ' ida  MARSH ', 'Ida\u00a0Marsh', '\uff29da Marsh'])
      expect(nameProblem(named('c', name), people)).toMatch(
        /^“Ida Marsh” is somebody of this project already/,
      )
    for (const name of ['Ida Marsh (junior)', 'Ida Marsch'])
      expect(nameProblem(named('c', name), people)).toBeNull()
  })

  it('NAME-2: a correction to a taken name is refused; one that keeps the name is not', () => {
    expect(nameProblem(named('b', 'Ida Marsh'), people)).not.toBeNull()
    expect(nameProblem(named('a', 'ida marsh'), people)).toBeNull()
  })

  it('NAME-3: who shares a name since a merge may keep it, or take one of their own', () => {
    const shared = [...people, named('c', 'Ida Marsh')]
    expect(nameProblem(named('c', 'Ida Marsh'), shared)).toBeNull()
    expect(nameProblem(named('c', 'Ida M. Marsh'), shared)).toBeNull()
    expect(nameProblem(named('d', 'Ida Marsh'), shared)).not.toBeNull()
  })
})
