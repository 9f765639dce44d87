import { z } from 'zod'

/** Every way a call can fail, told apart by code. "Not enough data" is an answer, not an error. */
export const callErrors = {
  INPUT_OUT_OF_RANGE: {
    status: 422,
    message: 'Something entered cannot be right.',
    data: z.object({
      problems: z.array(z.object({ field: z.string(), value: z.string(), message: z.string() })),
    }),
  },
  NOT_FOUND: {
    status: 404,
    message: 'That is not in this record.',
    data: z.object({ what: z.string(), id: z.string() }),
  },
  CONFLICT: {
    status: 409,
    message: 'Someone else has changed this since.',
    data: z.object({ detail: z.string(), entry: z.string().nullable() }),
  },
  NOT_ALLOWED: {
    status: 403,
    message: 'This is not allowed.',
    data: z.object({
      detail: z.string(),
      /** Set when it is about a person; with the `pin` ones a screen can ask and try again. */
      reason: z.enum(['role', 'maker', 'pin needed', 'pin not set', 'wrong pin', 'locked']).optional(),
      person: z.string().optional(),
      /** How long no try is taken [ms]. */
      waitMs: z.number().optional(),
    }),
  },
  STORAGE: {
    status: 503,
    message: 'The record on disk could not be used.',
    data: z.object({
      state: z.enum(['busy', 'read-only', 'full', 'corrupt', 'newer version', 'missing', 'foreign']),
      detail: z.string(),
    }),
  },
  INTERNAL: {
    status: 500,
    message: 'Something went wrong inside Bayledger.',
    data: z.object({ logId: z.string() }),
  },
} as const
export type CallErrorCode = keyof typeof callErrors
