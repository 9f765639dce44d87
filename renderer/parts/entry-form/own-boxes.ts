import type { ComponentType } from 'react'
import type { KindName } from '#model/record/kinds.ts'
import type { FieldProps } from './field-props.ts'
import { OutlineBox } from './outline-box.tsx'
import { CurrencyBox, TimeZoneBox } from './place-boxes.tsx'
import { SymptomBox } from './symptom-box.tsx'

/** Boxes of their own for fields where plain typing is not the best way to give them. */
export const ownBoxes: { [K in KindName]?: Readonly<Record<string, ComponentType<FieldProps>>> } = {
  'project-opened': { timeZone: TimeZoneBox, currency: CurrencyBox },
  'bay-planned': { outline: OutlineBox },
  'defect-found': { symptom: SymptomBox },
}
