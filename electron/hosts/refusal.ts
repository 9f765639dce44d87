/** Why a host does not take a request, told in the same form as the errors of a call. */
export interface Refusal {
  status: number
  code: string
  message: string
}

export const refusals = {
  wrongHost: {
    status: 421,
    code: 'WRONG_HOST',
    message: 'This address is not the one Bayledger answers to.',
  },
  badRequest: {
    status: 400,
    code: 'BAD_REQUEST',
    message: 'This is not a request that Bayledger understands.',
  },
  crossSite: { status: 403, code: 'CROSS_SITE', message: 'Only pages of Bayledger itself may ask this.' },
  noToken: {
    status: 401,
    code: 'UNAUTHORIZED',
    message: 'This page has no session. Open the full address that the start command printed.',
  },
  notFound: { status: 404, code: 'NOT_FOUND', message: 'There is nothing at this address.' },
  wrongMethod: {
    status: 405,
    code: 'METHOD_NOT_SUPPORTED',
    message: 'This address does not take that method.',
  },
  noLength: { status: 411, code: 'LENGTH_REQUIRED', message: 'The request must say how long it is.' },
  tooLarge: {
    status: 413,
    code: 'PAYLOAD_TOO_LARGE',
    message: 'That is larger than Bayledger takes at once.',
  },
  wrongType: {
    status: 415,
    code: 'UNSUPPORTED_MEDIA_TYPE',
    message: 'The request is not of the type that this address takes.',
  },
} as const satisfies Record<string, Refusal>

/** The body of a refusal, as the client of the contract reads errors. */
export function refusalBody({ status, code, message }: Refusal): string {
  return JSON.stringify({ json: { defined: false, code, status, message } })
}
