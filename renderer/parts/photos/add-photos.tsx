import { Button, FileButton, Progress, Select } from '@mantine/core'
import { type DragEvent, useState } from 'react'
import { type PhotoTag, photoTags } from '#model/record/photos.ts'
import { useJob } from '../../app/job.tsx'
import { photosWords as words } from '../../app/words/photos.ts'
import { useWriter } from '../../app/writer.ts'
import classes from './photos.module.css'
import { useAddPhotos } from './use-add-photos.ts'

interface AddPhotosProps {
  subject: string
  of?: string
  tag?: PhotoTag
  onOpen: (photo: string) => void
}

const accepts = 'image/jpeg,image/png,image/webp,image/heic,image/heif,.heic,.heif'

/** Adds photos by choosing or dropping files; shows how far it is, and each file that was refused with its reason. */
export function AddPhotos({ subject, of, tag: usual = 'other', onOpen }: AddPhotosProps) {
  const { outline } = useJob()
  const writer = useWriter()
  const [tag, setTag] = useState<PhotoTag>(usual)
  const adding = useAddPhotos({ subject, ...(of === undefined ? {} : { of }), tag })
  const { state } = adding
  const drop = (event: DragEvent) => {
    event.preventDefault()
    if (writer !== null && state.kind !== 'running') void adding.add([...event.dataTransfer.files])
  }
  const keeps = outline.project.body.keepPhotoPosition === true
  return (
    <div className={classes.adding}>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: dropping is an extra way; the button beside it does the same */}
      <div className={classes.drop} onDragOver={(event) => event.preventDefault()} onDrop={drop}>
        <Select
          label={words.keptFor}
          data={Object.entries(photoTags).map(([value, label]) => ({ value, label }))}
          value={tag}
          allowDeselect={false}
          onChange={(value) => value !== null && setTag(value as PhotoTag)}
        />
        <FileButton multiple accept={accepts} onChange={(files) => void adding.add(files)}>
          {(props) => (
            <Button {...props} loading={state.kind === 'running'} disabled={writer === null}>
              {words.add}
            </Button>
          )}
        </FileButton>
        <p className={classes.soft}>
          {writer === null ? words.nobody : keeps ? words.dropKeeps : words.drop}
        </p>
      </div>
      {state.kind === 'running' && (
        <div className={classes.progress}>
          <Progress value={100 * state.fraction} aria-label={words.adding(state.done, state.of)} />
          <p role="status">{words.adding(state.done, state.of)}</p>
          <Button variant="default" onClick={adding.stop}>
            {words.stop}
          </Button>
        </div>
      )}
      {state.kind === 'done' && (
        <div className={classes.outcome} role="status">
          <p>
            {words.added(state.added)} {state.stopped && words.stopped}
          </p>
          {state.refused.length > 0 && (
            <>
              <p>{words.refused(state.refused.length)}</p>
              <ul>
                {state.refused.map(({ file, sentence, entry }) => (
                  <li key={`${file.name} ${file.size} ${file.lastModified}`}>
                    {sentence}{' '}
                    {entry !== null && (
                      <button type="button" className={classes.link} onClick={() => onOpen(entry)}>
                        {words.lookAtIt}
                      </button>
                    )}
                  </li>
                ))}
              </ul>
            </>
          )}
          <div className={classes.row}>
            {state.refused.length > 0 && (
              <Button
                variant="default"
                onClick={() => void adding.add(state.refused.map(({ file }) => file))}
              >
                {words.again}
              </Button>
            )}
            <Button variant="subtle" onClick={adding.dismiss}>
              {words.dismiss}
            </Button>
          </div>
        </div>
      )}
    </div>
  )
}
