// Takes the session's token out of the address before anything reads the address as a route, and asks the host first.
import './app/early.ts'

void import('./start.tsx')
