import { useJob } from '../../app/job.tsx'
import { words } from '../../app/words.ts'
import { useWriter } from '../../app/writer.ts'
import { Page } from '../../parts/page.tsx'
import classes from './bundle.module.css'
import { Conflicts } from './bundle-conflicts.tsx'
import { BundleList } from './bundle-list.tsx'
import { MakeBundle } from './bundle-make.tsx'
import { ReceivedBundle } from './bundle-received.tsx'
import { Verifier } from './bundle-verifier.tsx'

/** Signed bundles: make one, check and take in another, settle what two machines corrected. */
export default function BundleScreen() {
  const { zone } = useJob()
  const person = useWriter()
  return (
    <Page title={words.bundle.title} lead={words.bundle.lead}>
      <MakeBundle />
      <BundleList />
      <ReceivedBundle zone={zone} person={person} />
      <Conflicts />
      <Verifier />
      <p className={classes.caution}>{words.bundle.caution}</p>
    </Page>
  )
}
