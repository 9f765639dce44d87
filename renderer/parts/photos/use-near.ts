import { type RefObject, useEffect, useState } from 'react'

const ahead = '600px 0px'

/** True while an element is on screen or a little way off it: what is far away holds no picture. */
export function useNear(box: RefObject<Element | null>): boolean {
  const [near, setNear] = useState(false)
  useEffect(() => {
    if (box.current === null) return
    const watcher = new IntersectionObserver(([seen]) => setNear(seen?.isIntersecting === true), {
      rootMargin: ahead,
    })
    watcher.observe(box.current)
    return () => watcher.disconnect()
  }, [box])
  return near
}
