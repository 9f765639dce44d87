export const recoveryWords = {
  title: 'The record cannot be opened',
  lead: 'Nothing has been deleted or changed. Bayledger has stopped before writing, so that what is there stays as it is.',
  code: (code: string) => `Kind of trouble: ${code}`,
  where: 'Where it lies',
  whereLead: 'Copy this folder to another disk before anything else. The log beside it says what was tried.',
  restore:
    'To go on from a backup: close Bayledger, copy the newest checked backup into the data folder under the name of the record, start again. Photos that are missing come back by themselves from the folder of backups. Keep the damaged file; entries written after the backup may still be read from it.',
  moveTitle: 'Or begin a new record beside it',
  moveLead:
    'The damaged file is renamed and stays in the folder; an empty record takes its place. Entries can be brought over later.',
  sure: 'I have a copy of the data folder, or do not need one',
  move: 'Move the damaged file aside',
  moved: (file: string) => `The damaged file now lies at ${file}. An empty record stands in its place.`,
  goOn: 'Go on with the empty record',
} as const
