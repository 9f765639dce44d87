import { Link } from 'wouter'
import { Page } from '../parts/page.tsx'
import { paths } from './paths.ts'
import { words } from './words.ts'

export function NotHere() {
  return (
    <Page title={words.notHere.title} lead={words.notHere.lead}>
      <p>
        <Link href={paths.today}>{words.notHere.back}</Link>
      </p>
    </Page>
  )
}
