import { useState } from 'react'
import type { StoryEntry } from '#model/record/entry.ts'
import { kinds } from '#model/record/kinds.ts'
import { useJob } from '../../app/job.tsx'
import { photosWords as words } from '../../app/words/photos.ts'
import { Section } from '../page.tsx'
import { dayText } from '../site-time.ts'
import { PhotoStrip } from './photo-grid.tsx'
import { PhotoTile } from './photo-tile.tsx'
import { PhotoViewer } from './photo-viewer.tsx'
import classes from './photos.module.css'
import { tagOfKind } from './tag-of-kind.ts'
import { usePhotos } from './use-photos.ts'

/** On the page of a photo, or of a width that was read off one: the photo itself. */
export function EntryPicture({ fact }: { fact: StoryEntry }) {
  if (fact.kind === 'photo-added') return <ThePhoto subject={fact.subject} photo={fact.id} />
  if (fact.kind === 'photo-marked') return <ThePhoto subject={fact.subject} photo={fact.body.photo} />
  return null
}

/** On the page of any other entry: the photos that show it, and the way to add some. */
export function EntryPhotos({ fact }: { fact: StoryEntry }) {
  if (fact.kind === 'photo-added' || fact.kind === 'photo-marked') return null
  const { about } = kinds[fact.kind]
  // A person is not photographed, and nothing new is said of a fact that no longer counts.
  if (about === 'person' || fact.withdrawn) return null
  return (
    <Section title={words.ofEntry}>
      <PhotoStrip subject={fact.subject} of={fact.id} tag={tagOfKind(fact.kind)} />
    </Section>
  )
}

function ThePhoto({ subject, photo: id }: { subject: string; photo: string }) {
  const { zone } = useJob()
  const { photos, marks } = usePhotos(subject)
  const [opened, setOpened] = useState(false)
  const photo = photos.find((one) => one.id === id)
  if (photo === undefined) return null
  return (
    <>
      <ul className={classes.one}>
        <PhotoTile photo={photo} when={dayText(photo.happenedAt, zone)} onOpen={() => setOpened(true)} />
      </ul>
      {opened && (
        <PhotoViewer
          photos={[photo]}
          marks={marks}
          photo={id}
          onPhoto={() => undefined}
          onClose={() => setOpened(false)}
        />
      )}
    </>
  )
}
