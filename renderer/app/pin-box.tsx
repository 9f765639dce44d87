import { PasswordInput } from '@mantine/core'
import { useState } from 'react'
import { pinProblem, pinRules } from '#model/people/index.ts'
import { peopleWords } from './words/people.ts'

const words = peopleWords.dialog

interface PinBoxProps {
  label: string
  value: string
  onChange: (value: string) => void
  help?: string
  error?: string | null
  focused?: boolean
}

/** A box for a PIN: digits on a phone's keys, hidden unless looked at, never offered to be kept by the browser. */
export function PinBox({ label, value, onChange, help, error = null, focused = false }: PinBoxProps) {
  return (
    <PasswordInput
      label={label}
      description={help}
      error={error}
      size="lg"
      inputMode="numeric"
      autoComplete="off"
      data-autofocus={focused || undefined}
      value={value}
      onChange={(event) => onChange(event.currentTarget.value)}
    />
  )
}

/** A new PIN, typed twice. */
export function useFreshPin() {
  const [pin, setPin] = useState('')
  const [again, setAgain] = useState('')
  const [tried, setTried] = useState(false)
  const problem = pinProblem(pin)
  const differ = problem === null && pin !== again
  return {
    pin,
    /** True when it can be sent; from then on what is wrong is shown. */
    check: () => {
      setTried(true)
      return problem === null && !differ
    },
    boxes: (focused: boolean) => (
      <>
        <PinBox
          label={words.fresh}
          help={words.rules(pinRules.leastDigits, pinRules.mostDigits)}
          error={tried && problem !== null ? words.cannot(problem) : null}
          value={pin}
          onChange={setPin}
          focused={focused}
        />
        <PinBox
          label={words.again}
          error={tried && differ ? words.differ : null}
          value={again}
          onChange={setAgain}
        />
      </>
    ),
  }
}
