import { integer, real, sqliteTable, text } from 'drizzle-orm/sqlite-core'
import type { KindName } from '#model/record/kinds.ts'

/**
 * The tables as typed reads see them. How they are made (STRICT, WITHOUT ROWID, triggers) stands in `migrations/`;
 * a test compares the two.
 */
const yesNo = (name: string) => integer(name, { mode: 'boolean' }).notNull()

export const ledger = sqliteTable('ledger', {
  seq: integer('seq').primaryKey(),
  id: text('id').notNull(),
  device: text('device').notNull(),
  deviceSeq: integer('deviceSeq').notNull(),
  project: text('project').notNull(),
  subject: text('subject').notNull(),
  kind: text('kind').$type<KindName>().notNull(),
  kindVersion: integer('kindVersion').notNull(),
  happenedAt: integer('happenedAt').notNull(),
  zone: text('zone').notNull(),
  recordedAt: integer('recordedAt').notNull(),
  person: text('person').notNull(),
  source: text('source').notNull(),
  body: text('body').notNull(),
  answers: text('answers').notNull(),
  corrects: text('corrects'),
  reason: text('reason'),
  prevHash: text('prevHash').notNull(),
  hash: text('hash').notNull(),
})

export const series = sqliteTable('series', {
  series: integer('series').primaryKey(),
  entry: text('entry').notNull(),
  position: integer('position').notNull(),
  subject: text('subject').notNull(),
  quantity: text('quantity').notNull(),
  heading: text('heading').notNull(),
  readings: integer('readings').notNull(),
  firstAt: integer('firstAt').notNull(),
  lastAt: integer('lastAt').notNull(),
  readingsSha256: text('readingsSha256').notNull(),
  sealed: yesNo('sealed').default(false),
})

export const readings = sqliteTable('readings', {
  series: integer('series').notNull(),
  at: integer('at').notNull(),
  value: real('value').notNull(),
})

export const facts = sqliteTable('facts', {
  seq: integer('seq').primaryKey(),
  root: text('root').notNull(),
  kind: text('kind').$type<KindName>().notNull(),
  subject: text('subject').notNull(),
  project: text('project').notNull(),
  head: text('head').notNull(),
  standing: integer('standing').notNull(),
  happenedAt: integer('happenedAt').notNull(),
  late: yesNo('late'),
  withdrawn: yesNo('withdrawn'),
  conflict: yesNo('conflict'),
  versions: integer('versions').notNull(),
})

export const projects = sqliteTable('projects', {
  id: text('id').primaryKey(),
  name: text('name').notNull(),
  timeZone: text('timeZone').notNull(),
  entries: integer('entries').notNull(),
  lastRecordedAt: integer('lastRecordedAt').notNull(),
  withdrawn: yesNo('withdrawn'),
})

export const floors = sqliteTable('floors', {
  id: text('id').primaryKey(),
  project: text('project').notNull(),
  name: text('name').notNull(),
  level: integer('level').notNull(),
  withdrawn: yesNo('withdrawn'),
})

export const zones = sqliteTable('zones', {
  id: text('id').primaryKey(),
  project: text('project').notNull(),
  floor: text('floor').notNull(),
  name: text('name').notNull(),
  heated: yesNo('heated'),
  withdrawn: yesNo('withdrawn'),
})

export const bays = sqliteTable('bays', {
  id: text('id').primaryKey(),
  project: text('project').notNull(),
  zone: text('zone').notNull(),
  name: text('name').notNull(),
  withdrawn: yesNo('withdrawn'),
})

export const people = sqliteTable('people', {
  id: text('id').primaryKey(),
  project: text('project').notNull(),
  name: text('name').notNull(),
  role: text('role').notNull(),
  withdrawn: yesNo('withdrawn'),
})

export const instruments = sqliteTable('instruments', {
  id: text('id').primaryKey(),
  project: text('project').notNull(),
  type: text('type').notNull(),
  serial: text('serial').notNull(),
  withdrawn: yesNo('withdrawn'),
})

export const imports = sqliteTable('imports', {
  entry: text('entry').primaryKey(),
  project: text('project').notNull(),
  subject: text('subject').notNull(),
  sha256: text('sha256').notNull(),
  madeBy: text('madeBy'),
  withdrawn: yesNo('withdrawn'),
})
