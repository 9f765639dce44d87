import type { Migration } from './migration.ts'

/**
 * The whole record. What was recorded (ledger, files, series, readings) is written once and guarded by triggers;
 * the views after it can be thrown away and rebuilt from the ledger at any time.
 */
export const ledgerAndViews: Migration = {
  version: 1,
  name: 'ledger and views',
  sql: `
create table migrations (
  version integer primary key,
  name text not null,
  sha256 text not null,
  appliedAt integer not null
) strict;

create table device (
  id text primary key,
  name text not null,
  home text not null,
  firstSeenAt integer not null
) strict;

create table ledger (
  seq integer primary key,
  id text not null unique,
  device text not null,
  deviceSeq integer not null,
  project text not null,
  subject text not null,
  kind text not null,
  kindVersion integer not null,
  happenedAt integer not null,
  zone text not null,
  recordedAt integer not null,
  person text not null,
  source text not null,
  body text not null,
  answers text not null,
  corrects text references ledger (id),
  reason text,
  prevHash text not null,
  hash text not null,
  unique (device, deviceSeq),
  check ((corrects is null) or (reason is not null))
) strict;

create table files (
  sha256 text primary key,
  bytes integer not null,
  packed blob not null,
  packedSha256 text not null
) strict;

create table series (
  series integer primary key,
  entry text not null references ledger (id),
  position integer not null,
  subject text not null,
  quantity text not null,
  heading text not null,
  readings integer not null,
  firstAt integer not null,
  lastAt integer not null,
  readingsSha256 text not null,
  sealed integer not null default 0 check (sealed in (0, 1)),
  unique (entry, position)
) strict;
create index seriesOfSubject on series (subject, firstAt);

create table readings (
  series integer not null references series (series),
  at integer not null,
  value real not null,
  primary key (series, at)
) strict, without rowid;

create trigger ledgerOnce before insert on ledger
  when exists (select 1 from ledger where seq = new.seq or id = new.id)
  begin select raise(abort, 'an entry of the ledger is never replaced'); end;
create trigger ledgerKept before delete on ledger
  begin select raise(abort, 'an entry of the ledger is never deleted'); end;
create trigger ledgerFixed before update on ledger
  begin select raise(abort, 'an entry of the ledger is never changed'); end;

create trigger filesOnce before insert on files when exists (select 1 from files where sha256 = new.sha256)
  begin select raise(abort, 'a file that was read is never replaced'); end;
create trigger filesKept before delete on files
  begin select raise(abort, 'a file that was read is never deleted'); end;
create trigger filesFixed before update on files
  begin select raise(abort, 'a file that was read is never changed'); end;

create trigger seriesOnce before insert on series
  when new.sealed <> 0 or exists (select 1 from series where series = new.series)
  begin select raise(abort, 'a series begins unsealed and is never replaced'); end;
create trigger seriesKept before delete on series
  begin select raise(abort, 'a series is never deleted'); end;
create trigger seriesFixed before update on series
  when old.sealed = 1 or new.sealed <> 1 or new.series <> old.series or new.entry <> old.entry
    or new.position <> old.position or new.subject <> old.subject or new.quantity <> old.quantity
    or new.heading <> old.heading or new.readings <> old.readings or new.firstAt <> old.firstAt
    or new.lastAt <> old.lastAt or new.readingsSha256 <> old.readingsSha256
  begin select raise(abort, 'a series is never changed'); end;

create trigger readingsSealed before insert on readings
  when exists (select 1 from series where series = new.series and sealed = 1)
  begin select raise(abort, 'a sealed series takes no more readings'); end;
create trigger readingsKept before delete on readings
  begin select raise(abort, 'a reading is never deleted'); end;
create trigger readingsFixed before update on readings
  begin select raise(abort, 'a reading is never changed'); end;

create table facts (
  seq integer primary key references ledger (seq),
  root text not null unique,
  kind text not null,
  subject text not null,
  project text not null,
  head text not null,
  standing integer not null references ledger (seq),
  happenedAt integer not null,
  late integer not null,
  withdrawn integer not null,
  conflict integer not null,
  versions integer not null
) strict;
create index factsOfSubject on facts (subject, kind, happenedAt);
create index factsOfProject on facts (project, happenedAt, seq);

create table factVersions (
  seq integer primary key references ledger (seq),
  fact integer not null references facts (seq),
  corrects integer,
  leaf integer not null
) strict;
create index versionsOfFact on factVersions (fact, seq);

create table projects (
  id text primary key,
  name text not null,
  timeZone text not null,
  entries integer not null,
  lastRecordedAt integer not null,
  withdrawn integer not null
) strict, without rowid;

create table floors (
  id text primary key,
  project text not null,
  name text not null,
  level integer not null,
  withdrawn integer not null
) strict, without rowid;
create index floorsOfProject on floors (project, level);

create table zones (
  id text primary key,
  project text not null,
  floor text not null,
  name text not null,
  heated integer not null,
  withdrawn integer not null
) strict, without rowid;
create index zonesOfProject on zones (project, floor);

create table bays (
  id text primary key,
  project text not null,
  zone text not null,
  name text not null,
  withdrawn integer not null
) strict, without rowid;
create index baysOfProject on bays (project, zone);
create index baysOfZone on bays (zone);

create table people (
  id text primary key,
  project text not null,
  name text not null,
  role text not null,
  withdrawn integer not null
) strict, without rowid;
create index peopleOfProject on people (project);

create table instruments (
  id text primary key,
  project text not null,
  type text not null,
  serial text not null,
  withdrawn integer not null
) strict, without rowid;
create index instrumentsOfProject on instruments (project);

create table imports (
  entry text primary key,
  project text not null,
  subject text not null,
  sha256 text not null,
  madeBy text,
  withdrawn integer not null
) strict, without rowid;
create index importsOfFile on imports (sha256, project);
create index importsOfSubject on imports (subject);
`,
}
