import { useMantineColorScheme } from '@mantine/core'
import classes from './theme-switch.module.css'
import { words } from './words.ts'

const schemes = { light: words.rail.light, dark: words.rail.dark, auto: words.rail.system } as const
type Scheme = keyof typeof schemes

/** Light, dark, or what the system says. Plain radio buttons: a sliding mark would lay the page out twice at its start. */
export function ThemeSwitch() {
  const { colorScheme, setColorScheme } = useMantineColorScheme()
  return (
    <fieldset className={classes.root} aria-label={words.rail.theme}>
      {Object.entries(schemes).map(([scheme, word]) => (
        <label key={scheme} className={classes.label}>
          <input
            type="radio"
            name="theme"
            className={classes.radio}
            checked={colorScheme === scheme}
            onChange={() => setColorScheme(scheme as Scheme)}
          />
          {word}
        </label>
      ))}
    </fieldset>
  )
}
