/** The first difference between a bundle and what it must be; the message is a sentence for a person. */
export class BundleFault extends Error {
  constructor(message: string) {
    super(message)
    this.name = 'BundleFault'
  }
}
