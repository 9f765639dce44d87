type Imaging = typeof import('sharp')['default']

let loading: Promise<Imaging> | null = null

/**
 * The library that reads and makes pictures. It is loaded when a photo is first looked at. The main thread must have
 * loaded it before a worker does: the library must outlast every thread that uses it.
 * @source sharp's installation notes on worker threads @provenance from memory
 */
export function imaging(): Promise<Imaging> {
  loading ??= load()
  return loading
}

async function load(): Promise<Imaging> {
  const { default: sharp } = await import('sharp')
  // One core a picture: the others are for the person at the screen. Each photo is asked for once, so none is remembered.
  sharp.concurrency(1)
  sharp.cache(false)
  return sharp
}
