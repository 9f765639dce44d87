import { words } from '../../app/words.ts'
import { VerifyRecord } from '../set-up/verify-record.tsx'
import classes from './audit.module.css'

/** The chain of hashes, replayed with progress. */
export function ChainPart() {
  return (
    <>
      <p className={classes.lead}>{words.audit.chain.lead}</p>
      <VerifyRecord />
    </>
  )
}
