import { type RefObject, useEffect, useState } from 'react'

const ahead = '700px 0px'
const waiting = new Map<Element, () => void>()
let watcher: IntersectionObserver | null = null

/** One watcher for all: hundreds of them would be asked on every scroll. */
function theWatcher(): IntersectionObserver {
  watcher ??= new IntersectionObserver(
    (seen) => {
      for (const { target, isIntersecting } of seen) if (isIntersecting) waiting.get(target)?.()
    },
    // The first is for the page, the second for a box that scrolls inside it.
    { rootMargin: ahead, scrollMargin: ahead } as IntersectionObserverInit,
  )
  return watcher
}

/** True from the moment when an element is on screen or a little way off it: until then it asks for nothing. */
export function useNear(box: RefObject<Element | null>): boolean {
  const [near, setNear] = useState(false)
  useEffect(() => {
    const element = box.current
    if (element === null || near) return
    waiting.set(element, () => setNear(true))
    theWatcher().observe(element)
    return () => {
      waiting.delete(element)
      watcher?.unobserve(element)
    }
  }, [box, near])
  return near
}
