import { Component, type ReactNode } from 'react'
import { Banner } from '../parts/banner.tsx'
import { words } from './words.ts'

interface GuardProps {
  children: ReactNode
  /** Where in the program this is: another place is tried afresh. */
  place?: string
  /** Nothing else is on screen. */
  whole?: boolean
}

interface GuardState {
  failure: Error | null
  place?: string | undefined
}

/**
 * Stands in for a screen that could not be loaded or drawn, and says so: without it React takes everything off the
 * page.
 */
export class ScreenGuard extends Component<GuardProps, GuardState> {
  override state: GuardState = { failure: null, place: this.props.place }

  static getDerivedStateFromError(failure: Error): Partial<GuardState> {
    return { failure }
  }

  static getDerivedStateFromProps({ place }: GuardProps, state: GuardState): GuardState | null {
    return place === state.place ? null : { failure: null, place }
  }

  override render() {
    const { failure } = this.state
    const { children, whole = false } = this.props
    if (failure === null) return children
    const trouble = { banner: words.trouble.screen(failure.message), fields: {} }
    // A file that failed to load is remembered as failed by the browser and by React until the page is loaded again.
    return <Banner trouble={trouble} retryWord={words.loadAgain} onRetry={reload} whole={whole} />
  }
}

function reload(): void {
  window.location.reload()
}
