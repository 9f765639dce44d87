/** A table to be saved: what each column is, and its rows. */
export interface Table {
  /** Names the file and the sheet: lower case letters and dashes. */
  name: string
  columns: readonly TableColumn[]
  rows: readonly (readonly Cell[])[]
}

export interface TableColumn {
  name: string
  /** Stands in the heading, "Cement [kg]". */
  unit?: string | undefined
}

export type Cell = string | number | boolean | null

export function headingOf({ name, unit }: TableColumn): string {
  return unit === undefined || unit === '' ? name : `${name} [${unit}]`
}

/**
 * Returns a text that no spreadsheet takes for a formula: one that begins like a formula, be it after blanks, gets an
 * apostrophe in front. Numbers never come here.
 * @source OWASP, CSV Injection: = + - @, tab and carriage return @provenance from memory
 */
export function harmless(text: string): string {
  return /^\s*[=+\-@＝＋－＠]/u.test(text) || /^[\t\r\n]/.test(text) ? `'${text}` : text
}
