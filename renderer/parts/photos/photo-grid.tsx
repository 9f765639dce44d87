import { useCallback, useState } from 'react'
import type { PhotoTag } from '#model/record/photos.ts'
import { useNow } from '../../app/clock.ts'
import { useJob } from '../../app/job.tsx'
import { troubleOf } from '../../app/trouble.ts'
import { photosWords as words } from '../../app/words/photos.ts'
import { Banner } from '../banner.tsx'
import { dayText } from '../site-time.ts'
import { Waiting } from '../waiting.tsx'
import { AddPhotos } from './add-photos.tsx'
import { PhotoTile } from './photo-tile.tsx'
import { PhotoViewer } from './photo-viewer.tsx'
import classes from './photos.module.css'
import { usePhotos } from './use-photos.ts'

export interface PhotosProps {
  /** What the photos are about: a bay, a floor, a zone, an instrument, the project. */
  subject: string
  /** Only photos that show this fact or defect; new ones are kept as photos of it. */
  of?: string
  /** Other entries of the same thing: photos that show one of them stand here too. */
  also?: readonly string[]
  /** What new photos are kept for, until somebody chooses otherwise. */
  tag?: PhotoTag
}

/** All photos of a thing, with what adds more, and one of them large when it is picked. */
export function PhotoGrid(props: PhotosProps) {
  return <Photos {...props} layout="grid" />
}

/** The same in one row, for a place where photos are not the main thing. */
export function PhotoStrip(props: PhotosProps) {
  return <Photos {...props} layout="strip" />
}

function Photos({ subject, of, also, tag, layout }: PhotosProps & { layout: 'grid' | 'strip' }) {
  const { photos, marks, error, isPending } = usePhotos(subject, of, also)
  const { zone } = useJob()
  const now = useNow()
  const [opened, setOpened] = useState<string | null>(null)
  const open = useCallback((photo: string) => setOpened(photo), [])
  if (isPending) return <Waiting />
  if (error !== null) return <Banner trouble={troubleOf(error)} />
  return (
    <div className={classes.photos}>
      <AddPhotos
        subject={subject}
        {...(of === undefined ? {} : { of })}
        {...(tag === undefined ? {} : { tag })}
        onOpen={open}
      />
      {photos.length === 0 ? (
        <p className={classes.soft}>{of === undefined ? words.none : words.noneOfEntry}</p>
      ) : (
        <ul className={classes[layout]} aria-label={words.count(photos.length)}>
          {photos.map((photo) => (
            <PhotoTile
              key={photo.id}
              photo={photo}
              when={dayText(photo.happenedAt, zone, now)}
              onOpen={open}
            />
          ))}
        </ul>
      )}
      {opened !== null && (
        <PhotoViewer
          photos={photos}
          marks={marks}
          photo={opened}
          onPhoto={setOpened}
          onClose={() => setOpened(null)}
        />
      )}
    </div>
  )
}
