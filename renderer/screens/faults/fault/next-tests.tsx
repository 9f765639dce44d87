import { Button } from '@mantine/core'
import { causes } from '#model/faults/causes.ts'
import { type EvidenceId, evidenceItem } from '#model/faults/evidence.ts'
import type { Diagnosis, NextTest } from '#model/faults/shapes.ts'
import { faultsWords } from '../../../app/words/faults.ts'
import { Mark } from '../../../parts/mark.tsx'
import { Section } from '../../../parts/page.tsx'
import { WhyButton } from '../../../parts/why.tsx'
import classes from './fault.module.css'
import { whyTest } from './whys.ts'

const words = faultsWords.tests

interface NextTestsProps {
  diagnosis: Diagnosis
  onAnswer: (evidence: EvidenceId | 'any') => void
}

/** Up to three looks that would tell the leading causes apart, with what each would settle. */
export function NextTests({ diagnosis, onAnswer }: NextTestsProps) {
  return (
    <Section
      title={words.title}
      aside={
        <Button variant="default" onClick={() => onAnswer('any')}>
          {faultsWords.answer.other}
        </Button>
      }
    >
      <p className={classes.soft}>{diagnosis.nextTests.length === 0 ? words.none : words.lead}</p>
      <div className={classes.tests}>
        {diagnosis.nextTests.map((test) => (
          <TestCard key={test.name} test={test} onAnswer={onAnswer} />
        ))}
      </div>
    </Section>
  )
}

function TestCard({ test, onAnswer }: { test: NextTest; onAnswer: NextTestsProps['onAnswer'] }) {
  return (
    <article className={classes.test}>
      <h3 className={classes.testName}>{test.name}</h3>
      <p className={classes.soft}>
        {words.costs[test.cost]} <WhyButton why={whyTest(test)} />
      </p>
      <p>{test.how}</p>
      {test.caution !== null && (
        <p className={classes.testCaution}>
          <Mark shape="trianglePoint" tone="act" word="" bare size={18} /> {test.caution}
        </p>
      )}
      <div>
        <h4 className={classes.small}>{words.settles}</h4>
        <p>{test.splits.map((cause) => causes[cause]).join(' · ')}</p>
      </div>
      <div>
        <h4 className={classes.small}>{words.answers}</h4>
        <ul className={classes.answerList}>
          {test.evidence.map((id) => (
            <li key={id}>
              <button type="button" className={classes.textButton} onClick={() => onAnswer(id)}>
                {evidenceItem(id).text}
              </button>
            </li>
          ))}
        </ul>
      </div>
    </article>
  )
}
