import { Button } from '@mantine/core'
import { useEffect, useRef } from 'react'
import type { FaultPage } from '#model/contract/faults.ts'
import { type EvidenceId, evidenceItem } from '#model/faults/evidence.ts'
import { faultsWords } from '../../../app/words/faults.ts'
import { CautionLines } from '../../../parts/caution.tsx'
import { EntryForm } from '../../../parts/entry-form/entry-form.tsx'
import classes from './fault.module.css'

const words = faultsWords.answer

interface AnswerFormProps {
  page: FaultPage
  /** Null: the person says which item it answers. */
  evidence: EvidenceId | null
  onClose: () => void
}

/** Somebody went and looked: the answer to one item of evidence, with who and how. */
export function AnswerForm({ page, evidence, onClose }: AnswerFormProps) {
  const top = useRef<HTMLElement>(null)
  useEffect(() => {
    top.current?.scrollIntoView({ block: 'center' })
    top.current?.focus()
  }, [])
  return (
    <section ref={top} tabIndex={-1} className={classes.inlineForm} aria-labelledby="answer-title">
      <header className={classes.formHead}>
        <h3 id="answer-title" className={classes.formTitle}>
          {words.title}
        </h3>
        <Button variant="subtle" onClick={onClose}>
          {words.close}
        </Button>
      </header>
      <p className={classes.soft}>{words.lead}</p>
      {evidence !== null && <p className={classes.verdict}>{evidenceItem(evidence).text}</p>}
      <EntryForm
        kind="fault-evidence-noted"
        subject={page.fault.bay}
        draftKey={`fault-evidence-noted ${page.fault.id} ${evidence ?? 'any'}`}
        start={{ defect: page.fault.id, evidence: evidence ?? undefined }}
        given={evidence === null ? ['defect'] : ['defect', 'evidence']}
        saveLabel={words.save}
        live={({ draft }) =>
          drills(draft.values.method) ? (
            <CautionLines ids={['silica', 'pipes']} subject={page.fault.bay} />
          ) : undefined
        }
        onSaved={onClose}
      />
    </section>
  )
}

/** Ways of looking that cut, grind or drill into the screed. */
function drills(method: unknown): boolean {
  return method === 'grinding' || method === 'core' || method === 'pull-off'
}
