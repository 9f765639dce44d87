/** A number as it is printed: at most `decimals`, no trailing noise, a true minus sign. */
export function numberText(value: number, decimals = 2): string {
  if (!Number.isFinite(value)) return '–'
  return value
    .toLocaleString('en-GB', { maximumFractionDigits: decimals, useGrouping: Math.abs(value) >= 10_000 })
    .replace('-', '−')
}

/** "12.5 kg"; no space stands before % and °. */
export function quantityText(value: number, unit: string, decimals = 2): string {
  return unit === '' ? numberText(value, decimals) : `${numberText(value, decimals)} ${unit}`
}

export type TypedNumber = { kind: 'empty' } | { kind: 'number'; value: number } | { kind: 'not a number' }

/** Reads a number as people type it: decimal comma or point, spaces between thousands, either minus sign. */
export function numberFromTyped(typed: string): TypedNumber {
  const text = typed.trim().replace(/[   ]/g, '').replace('−', '-').replace(',', '.')
  if (text === '') return { kind: 'empty' }
  return /^[-+]?(\d+\.?\d*|\.\d+)$/.test(text)
    ? { kind: 'number', value: Number(text) }
    : { kind: 'not a number' }
}
