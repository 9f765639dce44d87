import type { LedgerRow } from '../ledger-row.ts'

/** The bytes that the hash of an entry covers, from its row: canonical JSON, made without taking the body apart. */
export function lineOfRow(row: LedgerRow): string {
  const { answers, body, corrects, device, deviceSeq, happenedAt, id, kind, kindVersion } = row
  const { person, prevHash, project, reason, recordedAt, source, subject, zone } = row
  const q = JSON.stringify
  return `{"answers":${answers},"body":${body},"corrects":${q(corrects)},"device":${q(device)},"deviceSeq":${deviceSeq},"happenedAt":"${new Date(happenedAt).toISOString()}","id":${q(id)},"kind":${q(kind)},"kindVersion":${kindVersion},"person":${q(person)},"prevHash":${q(prevHash)},"project":${q(project)},"reason":${q(reason)},"recordedAt":"${new Date(recordedAt).toISOString()}","source":${q(source)},"subject":${q(subject)},"zone":${q(zone)}}`
}
