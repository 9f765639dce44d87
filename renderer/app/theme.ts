import { type CSSVariablesResolver, createTheme, type MantineColorsTuple } from '@mantine/core'

/** The look as tokens. CSS modules use them as `var(--paper)`; nothing else names a colour. */
const light = {
  paper: '#f6f4ee',
  raised: '#fffdf8',
  sunk: '#ece8dd',
  ink: '#1b1d1f',
  'ink-soft': '#4a4e52',
  line: '#d6d0c2',
  'line-strong': '#847f72',
  accent: '#0b5d66',
  'accent-strong': '#08474e',
  'accent-wash': '#dcebe9',
  'on-accent': '#ffffff',
  good: '#1a5a30',
  stop: '#8f1d14',
  'stop-wash': '#f8e3df',
  act: '#734600',
  'act-wash': '#f7e9cf',
  watch: '#34477a',
  'watch-wash': '#e4e8f3',
  unproven: '#574e44',
  'unproven-wash': '#ebe5db',
  shadow: 'rgb(40 36 28 / 18%)',
}

const dark: typeof light = {
  paper: '#14171a',
  raised: '#1d2226',
  sunk: '#0e1113',
  ink: '#ece8df',
  'ink-soft': '#bdb9b0',
  line: '#363d43',
  'line-strong': '#858d94',
  accent: '#6fd0d8',
  'accent-strong': '#a0e3e8',
  'accent-wash': '#14343a',
  'on-accent': '#06272b',
  good: '#8fd6a3',
  stop: '#ffa397',
  'stop-wash': '#3a1b18',
  act: '#f2c063',
  'act-wash': '#352710',
  watch: '#b1c3f3',
  'watch-wash': '#1f283d',
  unproven: '#cdc2b2',
  'unproven-wash': '#2a2722',
  shadow: 'rgb(0 0 0 / 55%)',
}

export const tokens = { light, dark } as const
export type Token = keyof typeof light

/** Petrol from pale to deep; index 3 is the accent in the dark, index 7 in the light. */
const petrol: MantineColorsTuple = [
  '#e4f4f5',
  '#c6e8ea',
  '#99d9de',
  '#6fd0d8',
  '#3fb0ba',
  '#1f8d97',
  '#127079',
  '#0b5d66',
  '#08474e',
  '#053238',
]

const fontFamily = "'Source Sans 3 Variable', 'Source Sans 3', system-ui, sans-serif"

export const theme = createTheme({
  fontFamily,
  fontFamilyMonospace: 'ui-monospace, Consolas, monospace',
  headings: { fontFamily, fontWeight: '650' },
  fontSizes: { xs: '0.875rem', sm: '0.9375rem', md: '1.0625rem', lg: '1.25rem', xl: '1.5rem' },
  lineHeights: { xs: '1.4', sm: '1.45', md: '1.55', lg: '1.5', xl: '1.35' },
  colors: { petrol },
  primaryColor: 'petrol',
  primaryShade: { light: 7, dark: 3 },
  autoContrast: true,
  defaultRadius: 4,
  cursorType: 'pointer',
  focusRing: 'auto',
  respectReducedMotion: true,
  components: {
    Button: { defaultProps: { size: 'md', variant: 'filled' } },
    TextInput: { defaultProps: { size: 'md' } },
    Textarea: { defaultProps: { size: 'md' } },
    NativeSelect: { defaultProps: { size: 'md' } },
    Select: { defaultProps: { size: 'md', allowDeselect: false } },
    Modal: {
      styles: { title: { fontSize: '1.2rem', fontWeight: 670 } },
      defaultProps: { centered: true, closeButtonProps: { 'aria-label': 'Close' } },
    },
  },
})

const prefixed = (set: typeof light) =>
  Object.fromEntries(Object.entries(set).map(([name, value]) => [`--${name}`, value]))

function mantineColours(set: typeof light): Record<string, string> {
  return {
    '--mantine-color-body': set.paper,
    '--mantine-color-text': set.ink,
    '--mantine-color-bright': set.ink,
    '--mantine-color-dimmed': set['ink-soft'],
    '--mantine-color-placeholder': set['ink-soft'],
    '--mantine-color-error': set.stop,
    '--mantine-color-anchor': set.accent,
    '--mantine-color-default': set.raised,
    '--mantine-color-default-hover': set.sunk,
    '--mantine-color-default-color': set.ink,
    '--mantine-color-default-border': set['line-strong'],
    '--mantine-color-disabled': set.sunk,
    '--mantine-color-disabled-color': set['ink-soft'],
    '--mantine-color-petrol-filled': set.accent,
    '--mantine-color-petrol-filled-hover': set['accent-strong'],
    '--mantine-color-petrol-light': set['accent-wash'],
    '--mantine-color-petrol-light-hover': set['accent-wash'],
    '--mantine-color-petrol-light-color': set.accent,
    '--mantine-primary-color-contrast': set['on-accent'],
  }
}

export const cssVariablesResolver: CSSVariablesResolver = () => ({
  variables: { '--rail': '15rem', '--touch': '3rem' },
  light: { ...prefixed(light), ...mantineColours(light) },
  dark: { ...prefixed(dark), ...mantineColours(dark) },
})
