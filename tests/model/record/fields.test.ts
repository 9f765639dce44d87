import { describe, expect, it } from 'vitest'
import { z } from 'zod'
import { type Field, optional } from '#model/record/fields.ts'

describe('FIELD: a field of an entry', () => {
  it('FIELD-1: that may be left out makes no schema before somebody checks a body with it', () => {
    let made = 0
    const field: Field<z.ZodNumber> = {
      label: 'Sand moisture',
      input: 'number',
      required: true,
      unit: '%',
      get schema() {
        made += 1
        return z.number()
      },
    }
    const open = optional(field)
    expect(open).toMatchObject({ label: 'Sand moisture', unit: '%', required: false })
    expect(made, 'read when it was only described').toBe(0)
    expect(open.schema.safeParse(undefined).success).toBe(true)
    expect(open.schema.safeParse(4.5).success).toBe(true)
    expect(open.schema.safeParse('wet').success).toBe(false)
    expect(made).toBe(1)
  })
})
