/**
 * A press takes the focus out of a box before the button under the finger is let go. A sentence that appears at that
 * moment moves the button away, and the press does nothing: what draws on leaving a box waits until the press is over.
 */
let pressed = false
window.addEventListener('pointerdown', () => note(true), { capture: true })
window.addEventListener('pointerup', () => note(false), { capture: true })
window.addEventListener('pointercancel', () => note(false), { capture: true })

function note(now: boolean): void {
  pressed = now
}

/** Does it at once, or when the finger or the mouse button that is down has been let go and its click was dealt with. */
export function afterPress(act: () => void): void {
  if (!pressed) {
    act()
    return
  }
  const over = () => {
    window.removeEventListener('pointerup', over)
    window.removeEventListener('pointercancel', over)
    // The click is dealt with in the same task as the release.
    setTimeout(act)
  }
  window.addEventListener('pointerup', over)
  window.addEventListener('pointercancel', over)
}
