import { Button, Modal } from '@mantine/core'
import { type KeyboardEvent, type ReactNode, useState } from 'react'
import { photoTags } from '#model/record/photos.ts'
import { troubleOf } from '../../app/trouble.ts'
import { photosWords as words } from '../../app/words/photos.ts'
import { Banner } from '../banner.tsx'
import { quantityText } from '../number-text.ts'
import { Waiting } from '../waiting.tsx'
import { CaptionBox } from './caption-box.tsx'
import { Measuring, type Purpose } from './measuring.tsx'
import { PhotoFacts } from './photo-facts.tsx'
import { type DrawnLine, PhotoSurface, type Point } from './photo-surface.tsx'
import classes from './photos.module.css'
import { lineOf, usePhotoChanges } from './use-photo-changes.ts'
import type { Photo, PhotoMark } from './use-photos.ts'
import { usePicture } from './use-picture.ts'

interface PhotoViewerProps {
  photos: readonly Photo[]
  marks: readonly PhotoMark[]
  photo: string
  onPhoto: (photo: string) => void
  onClose: () => void
}

/** One photo large: turn it, write under it, set its scale, read a width off it, and go through the others. */
export function PhotoViewer({ photos, marks, photo: id, onPhoto, onClose }: PhotoViewerProps) {
  const at = photos.findIndex((one) => one.id === id)
  const photo = photos[at]
  const go = (to: number) => {
    const next = photos[to]
    if (next !== undefined) onPhoto(next.id)
  }
  const steer = (event: KeyboardEvent) => {
    const typing = event.target instanceof HTMLElement && event.target.closest('input, textarea') !== null
    if (typing || event.defaultPrevented) return
    if (event.key === 'ArrowLeft') go(at - 1)
    if (event.key === 'ArrowRight') go(at + 1)
  }
  if (photo === undefined) return null
  const { tag, caption } = photo.body
  return (
    <Modal
      opened
      fullScreen
      onClose={onClose}
      onKeyDown={steer}
      title={caption ?? photoTags[tag]}
      closeButtonProps={{ 'aria-label': words.close }}
      classNames={{ body: classes.viewer, content: classes.viewerWhole, title: classes.viewerTitle }}
    >
      <OnePhoto key={id} photo={photo} marks={marks.filter(({ body }) => body.photo === id)}>
        <Button variant="default" disabled={at === 0} onClick={() => go(at - 1)}>
          {words.previous}
        </Button>
        <Button variant="default" disabled={at === photos.length - 1} onClick={() => go(at + 1)}>
          {words.next}
        </Button>
        <span className={classes.soft}>{words.place(at + 1, photos.length)}</span>
      </OnePhoto>
    </Modal>
  )
}

interface OnePhotoProps {
  photo: Photo
  marks: readonly PhotoMark[]
  /** Goes through the other photos. */
  children: ReactNode
}

const zooms = [1, 2, 4, 8] as const

function OnePhoto({ photo, marks, children }: OnePhotoProps) {
  const { body } = photo
  const [turns, setTurns] = useState(body.quarterTurns)
  const [zoom, setZoom] = useState(0)
  const [purpose, setPurpose] = useState<Purpose | null>(null)
  const [points, setPoints] = useState<readonly Point[]>([])
  const changes = usePhotoChanges(photo)
  const { url, error } = usePicture(photo, zoom > 0 || purpose !== null ? 'whole' : 'large')
  const shown = useLast(url)
  const measure = (next: Purpose | null) => {
    setPurpose(next)
    setPoints([])
  }
  /** The mutation keeps the error for the banner; what was being done stays open. */
  const write = async (work: () => Promise<unknown>) => {
    try {
      await work()
      return true
    } catch (cause) {
      if (cause instanceof Error) return false
      throw cause
    }
  }
  const [from, to] = points
  const drawn = from !== undefined && to !== undefined ? [newLine([from, to])] : []
  return (
    <>
      <div className={classes.left}>
        {shown === null ? (
          <div className={classes.stage}>
            {error === null ? <Waiting what={words.loading} /> : <Banner trouble={troubleOf(error)} />}
          </div>
        ) : (
          <PhotoSurface
            url={shown}
            widthPx={body.widthPx}
            heightPx={body.heightPx}
            quarterTurns={turns}
            zoom={zooms[zoom]!}
            lines={[...knownLines(photo), ...marks.map(lineOfMark), ...drawn]}
            started={points.length === 1 ? points[0]! : null}
            onPoint={
              purpose === null
                ? null
                : (point) => setPoints((before) => (before.length >= 2 ? [point] : [...before, point]))
            }
          />
        )}
        <div className={classes.tools}>
          <Button variant="default" onClick={() => setTurns((turns + 3) % 4)}>
            {words.turnLeft}
          </Button>
          <Button variant="default" onClick={() => setTurns((turns + 1) % 4)}>
            {words.turnRight}
          </Button>
          {turns !== body.quarterTurns && (
            <Button
              loading={changes.isPending}
              onClick={() => void write(() => changes.say({ quarterTurns: turns }, words.why.turned))}
            >
              {words.keepTurn}
            </Button>
          )}
          <Button variant="default" disabled={zoom === 0} onClick={() => setZoom(zoom - 1)}>
            {words.zoomOut}
          </Button>
          <Button variant="default" disabled={zoom === zooms.length - 1} onClick={() => setZoom(zoom + 1)}>
            {words.zoomIn}
          </Button>
          <span className={classes.soft}>{words.zoom(zooms[zoom]! * 100)}</span>
          <span className={classes.push} />
          {children}
        </div>
      </div>
      <div className={classes.right}>
        {changes.error !== null && <Banner trouble={troubleOf(changes.error)} />}
        <CaptionBox
          caption={body.caption}
          busy={changes.isPending}
          onSave={async (caption) => {
            const why = body.caption === undefined ? words.why.captioned : words.why.recaptioned
            await write(() => changes.say({ caption }, why))
          }}
        />
        {purpose === null ? (
          <div className={classes.row}>
            <Button variant="default" onClick={() => measure('scale')}>
              {body.scale === undefined ? words.setScale : words.scaleAgain}
            </Button>
            <Button
              variant="default"
              disabled={body.scale === undefined}
              title={body.scale === undefined ? words.measureNeedsScale : undefined}
              onClick={() => measure('width')}
            >
              {words.measure}
            </Button>
            {body.scale === undefined && <p className={classes.soft}>{words.measureNeedsScale}</p>}
          </div>
        ) : (
          <Measuring
            photo={photo}
            purpose={purpose}
            points={points}
            busy={changes.isPending}
            onScale={async (line, lengthMm) => {
              const why = body.scale === undefined ? words.why.scaled : words.why.rescaled
              const scale = [{ ...lineOf(line), lengthMm }]
              if (await write(() => changes.say({ scale }, why))) measure(null)
            }}
            onWidth={async (line, what, lengthMm) => {
              if (await write(() => changes.mark(line, what, lengthMm))) measure(null)
            }}
            onCancel={() => measure(null)}
          />
        )}
        <PhotoFacts photo={photo} marks={marks} />
      </div>
    </>
  )
}

/** What was shown last stays until the sharper picture is there. */
function useLast(url: string | null): string | null {
  const [last, setLast] = useState(url)
  if (url !== null && url !== last) setLast(url)
  return url ?? last
}

function knownLines({ body }: Photo): DrawnLine[] {
  return (body.scale ?? []).map((line, i) => ({
    ...line,
    id: `scale ${i}`,
    label: words.scaleSet(quantityText(line.lengthMm, 'mm', 1)),
    tone: 'scale',
  }))
}

function lineOfMark({ id, body }: PhotoMark): DrawnLine {
  return { ...body, id, label: quantityText(body.lengthMm, 'mm', 1), tone: 'mark' }
}

function newLine(line: readonly [Point, Point]): DrawnLine {
  return { ...lineOf(line), id: 'new', label: '', tone: 'new' }
}
