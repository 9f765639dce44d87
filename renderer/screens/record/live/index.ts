import type { ComponentType } from 'react'
import type { KindName } from '#model/record/kinds.ts'
import type { EntryForm } from '../../../parts/entry-form/use-entry-form.ts'
import { AirLive } from './air-live.tsx'
import { BatchLive } from './batch-live.tsx'
import { MoistureLive } from './moisture-live.tsx'

export interface LiveProps {
  subject: string
  form: EntryForm
}

/** Kinds whose numbers mean something before they are saved. */
export const livePanels: { [K in KindName]?: ComponentType<LiveProps> } = {
  'batch-mixed': BatchLive,
  'air-read': AirLive,
  'moisture-read': MoistureLive,
}
