import { UnstyledButton, VisuallyHidden } from '@mantine/core'
import { memo, useRef } from 'react'
import { photoTags } from '#model/record/photos.ts'
import { photosWords as words } from '../../app/words/photos.ts'
import classes from './photos.module.css'
import { useNear } from './use-near.ts'
import type { Photo } from './use-photos.ts'
import { usePicture } from './use-picture.ts'

interface PhotoTileProps {
  photo: Photo
  /** When it was taken or added, in words. */
  when: string
  onOpen: (photo: string) => void
}

/** One photo among many: its small picture while it is near, its tag and its caption. */
export const PhotoTile = memo(function PhotoTile({ photo, when, onOpen }: PhotoTileProps) {
  const box = useRef<HTMLLIElement>(null)
  const near = useNear(box)
  const { url, error } = usePicture(photo, 'small', near)
  const { tag, caption, quarterTurns } = photo.body
  return (
    <li ref={box} className={classes.tile}>
      <UnstyledButton className={classes.tileButton} onClick={() => onOpen(photo.id)}>
        <VisuallyHidden>{words.open}</VisuallyHidden>
        <span className={classes.frame}>
          {url !== null && (
            <img className={classes.small} data-turns={quarterTurns} src={url} alt="" decoding="async" />
          )}
          {error !== null && <span className={classes.broken}>{words.notShown}</span>}
        </span>
        <span className={classes.tag}>{photoTags[tag]}</span>
        <span className={classes.name}>{caption ?? when}</span>
      </UnstyledButton>
    </li>
  )
})
