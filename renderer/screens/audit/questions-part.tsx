import { useQuery } from '@tanstack/react-query'
import { type HonestyRule, honestyRules, type Question } from '#model/audit/index.ts'
import { orpc } from '../../app/client.ts'
import { useJob } from '../../app/job.tsx'
import { troubleOf } from '../../app/trouble.ts'
import { words } from '../../app/words.ts'
import { Banner, Note } from '../../parts/banner.tsx'
import { Waiting } from '../../parts/waiting.tsx'
import classes from './audit.module.css'
import { QuestionCard } from './question-card.tsx'

const say = words.audit.questions

/** What the other side would ask. */
export function QuestionsPart() {
  const { id } = useJob()
  const { data, error, isPending, refetch } = useQuery(
    orpc.audit.questions.queryOptions({ input: { project: id } }),
  )
  if (isPending) return <Waiting />
  if (error !== null) return <Banner trouble={troubleOf(error)} onRetry={() => void refetch()} />
  const { questions } = data
  if (questions.length === 0) return <Note tone="good">{say.none}</Note>
  return (
    <>
      <p className={classes.count}>{say.count(questions.length)}</p>
      <ul className={classes.cards}>
        {inOrder(questions).map((question) => (
          <QuestionCard key={question.id} question={question} />
        ))}
      </ul>
    </>
  )
}

/** Questions of one kind stand together, in the order in which the kinds are named. */
function inOrder(questions: readonly Question[]): Question[] {
  const order = Object.keys(honestyRules) as HonestyRule[]
  return questions.toSorted((a, b) => order.indexOf(a.rule) - order.indexOf(b.rule))
}
