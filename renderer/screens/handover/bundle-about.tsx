import type { BundleCheck } from '#model/contract/index.ts'
import { words } from '../../app/words.ts'
import { momentText } from '../../parts/site-time.ts'
import classes from './bundle.module.css'
import { Fingerprint } from './bundle-fingerprint.tsx'

const say = words.bundle.received

/** What a received bundle says about itself, and how this record knows the key that signed it. */
export function BundleAboutList({ check, zone }: { check: BundleCheck; zone: string }) {
  const { about, fingerprint, key } = check
  if (about === null) return null
  const when = (at: string) => momentText(Date.parse(at), zone)
  const lines: [name: string, value: string][] = [
    [say.about.project, about.projectName],
    [say.about.scope, words.bundle.scopeOf[about.scope](about.bays)],
    ...(about.scope === 'bays'
      ? [
          [say.about.part, words.bundle.part.ofAll(about.bays.length, about.baysOfProject)] as [
            string,
            string,
          ],
        ]
      : []),
    [say.about.made, say.about.madeBy(when(about.madeAt), about.by, about.deviceName)],
    ...(about.asOf === null ? [] : [[say.about.asOf, when(about.asOf)] as [string, string]]),
    ...(about.reason === null ? [] : [[say.about.reason, about.reason] as [string, string]]),
    [say.about.entries, say.about.entriesOf(about.given, about.leftOut)],
    [say.about.with, say.about.withOf(about.loggerFiles, about.photos)],
    ...(about.missing === 0
      ? []
      : [[say.about.missing, say.about.missingOf(about.missing)] as [string, string]]),
    ...(key === null ? [] : [[say.about.key, trustText(key, when)] as [string, string]]),
  ]
  return (
    <dl className={classes.pairs}>
      {fingerprint !== null && (
        <div>
          <dt>{say.about.fingerprint}</dt>
          <dd>
            <Fingerprint hex={fingerprint} />
          </dd>
        </div>
      )}
      {lines.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  )
}

function trustText(
  { trust, knownSince }: NonNullable<BundleCheck['key']>,
  when: (at: string) => string,
): string {
  return say.trust[trust](knownSince === null ? words.notKnown : when(knownSince))
}
