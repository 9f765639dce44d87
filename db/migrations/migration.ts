/** One step of the file's shape, applied once and never edited afterwards: its hash is kept in the file. */
export interface Migration {
  version: number
  name: string
  sql: string
  /** Tables whose number of rows may differ afterwards; all others must keep theirs. */
  mayChangeRowsOf?: readonly string[]
  /** Set when the views changed: they are filled again from the ledger. */
  replay?: boolean
}
