import type { ReactNode } from 'react'
import { Link } from 'wouter'
import { photoFormats, photoTags } from '#model/record/photos.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { paths } from '../../app/paths.ts'
import { photosWords } from '../../app/words/photos.ts'
import { sizeText } from '../backup-list.tsx'
import { quantityText } from '../number-text.ts'
import { momentText } from '../site-time.ts'
import classes from './photos.module.css'
import type { Photo, PhotoMark } from './use-photos.ts'

const words = photosWords.facts

/** Who added a photo and when, what it is, and what was read off it. */
export function PhotoFacts({ photo, marks }: { photo: Photo; marks: readonly PhotoMark[] }) {
  const { zone, nameOf } = useJob()
  const now = useNow()
  const { body } = photo
  const first = photo.versions[0]!
  return (
    <>
      <dl className={classes.facts}>
        <Fact name={words.kept}>{photoTags[body.tag]}</Fact>
        <Fact name={words.taken}>
          {body.takenAt === undefined ? words.takenUnknown : momentText(Date.parse(body.takenAt), zone, now)}
        </Fact>
        <Fact name={words.added}>
          {words.addedBy(nameOf(first.person), momentText(first.recordedAt, zone, now))}
        </Fact>
        <Fact name={words.size}>
          {words.pixels(body.widthPx, body.heightPx, `${photoFormats[body.format]}, ${sizeText(body.bytes)}`)}
        </Fact>
        <Fact name={words.position}>{body.gpsKept ? words.positionKept : words.positionOut}</Fact>
        {body.fileName !== undefined && <Fact name={words.file}>{body.fileName}</Fact>}
        <Fact name={words.hash}>
          <code className={classes.hash}>{body.sha256}</code>
        </Fact>
      </dl>
      {marks.length > 0 && (
        <div>
          <h3 className={classes.heading}>{photosWords.marks}</h3>
          <ul className={classes.marks}>
            {marks.map(({ id, body: { what, lengthMm } }) => (
              <li key={id}>
                <Link href={paths.entry(id)}>
                  {what}: {quantityText(lengthMm, 'mm', 1)}
                </Link>
              </li>
            ))}
          </ul>
        </div>
      )}
      <p className={classes.row}>
        <Link href={paths.entry(photo.id)}>{photosWords.entry}</Link>
        {body.of !== undefined && <Link href={paths.entry(body.of)}>{words.shows}</Link>}
      </p>
    </>
  )
}

function Fact({ name, children }: { name: string; children: ReactNode }) {
  return (
    <div className={classes.fact}>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  )
}
