import { MantineProvider } from '@mantine/core'
import { QueryClientProvider } from '@tanstack/react-query'
import { Router } from 'wouter'
import { useHashLocation } from 'wouter/use-hash-location'
import { Gate } from './gate.tsx'
import { queries } from './queries.ts'
import { ScreenGuard } from './screen-guard.tsx'
import { cssVariablesResolver, theme } from './theme.ts'

const nonce = document.querySelector<HTMLMetaElement>('meta[name="csp-nonce"]')?.content ?? ''

export function App() {
  return (
    <MantineProvider
      theme={theme}
      cssVariablesResolver={cssVariablesResolver}
      defaultColorScheme="auto"
      getStyleNonce={() => nonce}
    >
      <QueryClientProvider client={queries}>
        <Router hook={useHashLocation}>
          <ScreenGuard whole>
            <Gate />
          </ScreenGuard>
        </Router>
      </QueryClientProvider>
    </MantineProvider>
  )
}
