import { MantineProvider } from '@mantine/core'
import { QueryClient, QueryClientProvider } from '@tanstack/react-query'
import { useState } from 'react'
import { Router } from 'wouter'
import { useHashLocation } from 'wouter/use-hash-location'
import { Gate } from './gate.tsx'
import { cssVariablesResolver, theme } from './theme.ts'

const nonce = document.querySelector<HTMLMetaElement>('meta[name="csp-nonce"]')?.content ?? ''

/** The record is on this machine: an answer is fresh until something is written, and a failed call is shown, not retried. */
function newQueryClient(): QueryClient {
  return new QueryClient({
    defaultOptions: {
      queries: { retry: false, staleTime: 30_000, refetchOnWindowFocus: true, networkMode: 'always' },
      mutations: { retry: false, networkMode: 'always' },
    },
  })
}

export function App() {
  const [queries] = useState(newQueryClient)
  return (
    <MantineProvider
      theme={theme}
      cssVariablesResolver={cssVariablesResolver}
      defaultColorScheme="auto"
      getStyleNonce={() => nonce}
    >
      <QueryClientProvider client={queries}>
        <Router hook={useHashLocation}>
          <Gate />
        </Router>
      </QueryClientProvider>
    </MantineProvider>
  )
}
