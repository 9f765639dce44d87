import { SegmentedControl, useMantineColorScheme } from '@mantine/core'
import classes from './theme-switch.module.css'
import { words } from './words.ts'

/** Light, dark, or what the system says. */
export function ThemeSwitch() {
  const { colorScheme, setColorScheme } = useMantineColorScheme()
  return (
    <SegmentedControl
      aria-label={words.rail.theme}
      fullWidth
      size="xs"
      classNames={{ root: classes.root, label: classes.label, indicator: classes.indicator }}
      value={colorScheme}
      onChange={(value) => setColorScheme(value as typeof colorScheme)}
      data={[
        { value: 'light', label: words.rail.light },
        { value: 'dark', label: words.rail.dark },
        { value: 'auto', label: words.rail.system },
      ]}
    />
  )
}
