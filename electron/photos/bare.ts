import type { CameraNotes } from './exif.ts'

/** A photo without anything but the picture, its colours and how it is turned; and what its camera had written. */
export interface BarePhoto {
  bytes: Buffer
  notes: CameraNotes
}

/** The file does not hold what its first bytes promise. */
export class BrokenPhoto extends Error {
  constructor(what: string) {
    super(what)
    this.name = 'BrokenPhoto'
  }
}
