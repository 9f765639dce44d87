import { TextInput } from '@mantine/core'
import { type KeyboardEvent, useState } from 'react'
import { mostDaysLeft } from '#model/faults/repair/ask.ts'
import { recall, remember } from '../../../../app/memory.ts'
import { faultsWords } from '../../../../app/words/faults.ts'
import { numberFromTyped } from '../../../../parts/number-text.ts'
import classes from '../fault.module.css'

const words = faultsWords.daysLeft
const memoryKey = (fault: string) => `days left ${fault}`

/** How many days the programme has left: a question to the options, remembered on this machine and not recorded. */
export function useDaysLeft(fault: string) {
  const [typed, setTyped] = useState<{ fault: string; days: number | null } | null>(null)
  const daysLeft = typed?.fault === fault ? typed.days : readDays(recall(memoryKey(fault)) ?? '')
  return {
    daysLeft: daysLeft === 'wrong' ? null : daysLeft,
    setDaysLeft: (days: number | null) => {
      remember(memoryKey(fault), days === null ? null : String(days))
      setTyped({ fault, days })
    },
  }
}

/** What was typed as days: null for nothing, "wrong" for what is no whole number within reach. */
export function readDays(typed: string): number | null | 'wrong' {
  const read = numberFromTyped(typed)
  if (read.kind === 'empty') return null
  const fits =
    read.kind === 'number' && Number.isInteger(read.value) && read.value >= 0 && read.value <= mostDaysLeft
  return fits ? read.value : 'wrong'
}

interface DaysLeftProps {
  value: number | null
  onChange: (days: number | null) => void
}

/** One box above the options; it counts when it is left, or on Enter. */
export function DaysLeft({ value, onChange }: DaysLeftProps) {
  const [typed, setTyped] = useState(value === null ? '' : String(value))
  const [wrong, setWrong] = useState(false)
  const take = () => {
    const days = readDays(typed)
    setWrong(days === 'wrong')
    if (days !== 'wrong' && days !== value) onChange(days)
  }
  const onEnter = (event: KeyboardEvent) => {
    if (event.key === 'Enter') take()
  }
  return (
    <TextInput
      className={classes.daysLeft}
      label={words.label}
      description={words.help}
      inputMode="numeric"
      autoComplete="off"
      value={typed}
      error={wrong ? words.wrong(mostDaysLeft) : undefined}
      onChange={(event) => setTyped(event.currentTarget.value)}
      onBlur={take}
      onKeyDown={onEnter}
    />
  )
}
