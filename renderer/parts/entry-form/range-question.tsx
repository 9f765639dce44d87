import { Button, TextInput } from '@mantine/core'
import { words } from '../../app/words.ts'
import classes from './entry-form.module.css'
import { useForm } from './form-context.tsx'

/** "Are you sure?": an unusual number is kept when somebody says so, and the answer is kept with it. */
export function RangeQuestionBox({ path }: { path: string }) {
  const { questions, answers, onAnswer } = useForm()
  const asked = questions.find(({ field }) => field === path)
  if (asked === undefined) return null
  const given = answers[path]
  const answered = given !== undefined && given.value === asked.value
  return (
    <div className={classes.sure}>
      <p>{asked.question}</p>
      {answered ? (
        <TextInput
          label={words.form.sureWhy}
          value={given.answer}
          onChange={(event) => onAnswer(path, { value: asked.value, answer: event.currentTarget.value })}
        />
      ) : (
        <Button
          variant="default"
          onClick={() => onAnswer(path, { value: asked.value, answer: words.form.sureDefault })}
        >
          {words.form.sure}
        </Button>
      )}
    </div>
  )
}
