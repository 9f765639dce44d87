import type { Migration } from './migration.ts'

/**
 * Parts: bundles of some bays that were taken in. Each keeps what its signature covers and the hashes of all entries, so
 * that a gap in the chain of a device is explained by something signed, and can be checked again at any time.
 */
export const parts: Migration = {
  version: 2,
  name: 'parts',
  sql: `
create table parts (
  fingerprint text primary key,
  project text not null,
  takenInAt integer not null,
  manifest blob not null,
  head blob not null,
  signature blob not null,
  leaves blob not null
) strict;

create trigger partsOnce before insert on parts when exists (select 1 from parts where fingerprint = new.fingerprint)
  begin select raise(abort, 'a part that was taken in is never replaced'); end;
create trigger partsKept before delete on parts
  begin select raise(abort, 'a part that was taken in is never deleted'); end;
create trigger partsFixed before update on parts
  begin select raise(abort, 'a part that was taken in is never changed'); end;
`,
}
