import { type Finding, keepsLimit, type Limit, limitText } from '../../rules/limit.ts'

/**
 * What is found while a test is examined: facts against limits, reasons that make it prove nothing, facts that are missing,
 * and remarks that do not decide.
 */
export interface Inquiry {
  findings: Finding[]
  invalid: string[]
  missing: string[]
  cautions: string[]
}

export function newInquiry(): Inquiry {
  return { findings: [], invalid: [], missing: [], cautions: [] }
}

/** Demands a number of the method: absent, it is missing; breaking its limit, the test proves nothing. */
export function demand(inquiry: Inquiry, what: string, value: number | null | undefined, limit: Limit): void {
  inquiry.findings.push({ what, value: value ?? null, limit })
  if (value === null || value === undefined) inquiry.missing.push(what)
  else if (!keepsLimit(value, limit)) inquiry.invalid.push(brokenText(what, value, limit))
}

/** Demands a fact of the method: absent, it is missing; the wrong way, the test proves nothing. */
export function demandFact(
  inquiry: Inquiry,
  what: string,
  fact: boolean | null | undefined,
  otherwise: string,
): void {
  inquiry.findings.push({
    what,
    value: fact === undefined || fact === null ? null : fact ? 'yes' : 'no',
    limit: null,
  })
  if (fact === undefined || fact === null) inquiry.missing.push(what)
  else if (!fact) inquiry.invalid.push(otherwise)
}

/** Notes a number of practice or judgement: it is shown and may be remarked on, but does not decide. */
export function note(inquiry: Inquiry, what: string, value: number | null | undefined, limit: Limit): void {
  inquiry.findings.push({ what, value: value ?? null, limit })
  if (value === null || value === undefined) inquiry.cautions.push(`${what} was not recorded.`)
  else if (!keepsLimit(value, limit)) inquiry.cautions.push(brokenText(what, value, limit))
}

function brokenText(what: string, value: number, limit: Limit): string {
  const shown = Math.round(value * 100) / 100
  return `${what}: ${shown} against ${limitText(limit)} (${limit.source}, ${limit.provenance}).`
}
