import { Modal } from '@mantine/core'
import { type KeyboardEvent, useId, useMemo, useState } from 'react'
import { useLocation } from 'wouter'
import classes from './command-field.module.css'
import { commandItems, matchCommands } from './command-items.ts'
import { useJob } from './job.tsx'
import { words } from './words.ts'

/** One field to find a bay, open a page or write down a fact, by keyboard alone. */
export default function CommandField({ opened, onClose }: { opened: boolean; onClose: () => void }) {
  return (
    <Modal
      opened={opened}
      onClose={onClose}
      title={words.command.title}
      size="xl"
      yOffset="12vh"
      centered={false}
    >
      {opened && <CommandList onClose={onClose} />}
    </Modal>
  )
}

function CommandList({ onClose }: { onClose: () => void }) {
  const job = useJob()
  const [, go] = useLocation()
  const [typed, setTyped] = useState('')
  const [at, setAt] = useState(0)
  const list = useId()
  const items = useMemo(() => commandItems(job), [job])
  const found = useMemo(() => matchCommands(items, typed), [items, typed])
  const open = (index: number) => {
    const item = found[index]
    if (item === undefined) return
    onClose()
    go(item.href)
  }
  const onKeyDown = (event: KeyboardEvent) => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key]
    if (step !== undefined) {
      event.preventDefault()
      setAt((now) => (now + step + found.length) % Math.max(1, found.length))
    } else if (event.key === 'Enter') {
      event.preventDefault()
      open(at)
    }
  }
  return (
    <div className={classes.field}>
      <input
        className={classes.input}
        role="combobox"
        aria-label={words.command.placeholder}
        aria-expanded={found.length > 0}
        aria-controls={list}
        aria-activedescendant={found.length > 0 ? `${list}-${at}` : undefined}
        aria-autocomplete="list"
        placeholder={words.command.placeholder}
        data-autofocus
        value={typed}
        onChange={(event) => {
          setTyped(event.currentTarget.value)
          setAt(0)
        }}
        onKeyDown={onKeyDown}
      />
      <p className={classes.help}>{found.length > 0 ? words.command.help : words.command.none}</p>
      <div id={list} role="listbox" aria-label={words.command.title} className={classes.list}>
        {found.map((item, index) => (
          // biome-ignore lint/a11y/useKeyWithClickEvents: keys are handled by the combobox that owns the list
          <div
            key={`${item.href} ${item.text}`}
            id={`${list}-${index}`}
            role="option"
            tabIndex={-1}
            aria-selected={index === at}
            className={classes.option}
            onClick={() => open(index)}
            onMouseMove={() => setAt(index)}
          >
            <span>{item.text}</span>
            <span className={classes.group}>{words.command.groups[item.group]}</span>
          </div>
        ))}
      </div>
    </div>
  )
}
