/** One component of a calendar file: its properties in order, and the components inside it. */
export interface Component {
  name: string
  properties: { name: string; parameters: Record<string, string>; value: string }[]
  inside: Component[]
}

/**
 * Reads a calendar file strictly by RFC 5545 (3.1 content lines and folding, 3.2 parameters, 3.6 components), written apart
 * from what makes it. Anything that is not allowed is an error.
 */
export function readCalendar(text: string): Component {
  if (!text.endsWith('\r\n')) throw new Error('The last line does not end with CRLF.')
  const physical = text.slice(0, -2).split('\r\n')
  for (const line of physical) {
    if (/[\r\n]/.test(line)) throw new Error(`A bare line break stands in: ${line}`)
    if (new TextEncoder().encode(line).length > 75) throw new Error(`Longer than 75 octets: ${line}`)
    if (new TextDecoder('utf-8', { fatal: true }).decode(new TextEncoder().encode(line)) !== line)
      throw new Error(`Folded inside a character: ${line}`)
  }
  const lines = text
    .slice(0, -2)
    .replaceAll(/\r\n[ \t]/g, '')
    .split('\r\n')
  const root: Component = { name: '', properties: [], inside: [] }
  const open = [root]
  for (const line of lines) {
    const match = /^([A-Z0-9-]+)((?:;[A-Z0-9-]+=(?:"[^"]*"|[^";:,]*))*):(.*)$/s.exec(line)
    if (match === null) throw new Error(`Not a content line: ${line}`)
    const [, name = '', given = '', value = ''] = match
    if (name === 'BEGIN') {
      const component = { name: value, properties: [], inside: [] }
      open.at(-1)!.inside.push(component)
      open.push(component)
    } else if (name === 'END') {
      if (open.pop()?.name !== value) throw new Error(`END:${value} closes something else.`)
    } else {
      const parameters = Object.fromEntries(
        given
          .split(';')
          .filter((part) => part !== '')
          .map((part) => part.split('=') as [string, string]),
      )
      open.at(-1)!.properties.push({ name, parameters, value })
    }
  }
  if (open.length !== 1 || root.inside.length !== 1) throw new Error('Not exactly one calendar.')
  return root.inside[0]!
}

/** The value of a property that must stand exactly once. */
export function only(component: Component, name: string): string {
  const found = component.properties.filter((property) => property.name === name)
  if (found.length !== 1) throw new Error(`${name} stands ${found.length} times.`)
  return found[0]!.value
}

/** A TEXT value without its escapes (3.3.11); what had to be escaped and is not, is an error. */
export function textOf(component: Component, name: string): string {
  const value = only(component, name)
  if (/(?<!\\)(?:\\\\)*[;,]/.test(value.replaceAll(/\\[\\;,nN]/g, '')))
    throw new Error(`${name} is not escaped: ${value}`)
  return value.replaceAll(/\\([\\;,nN])/g, (_, sign: string) => (sign.toLowerCase() === 'n' ? '\n' : sign))
}

/** The instant of a DATE-TIME in UTC (3.3.5 form 2) [epoch ms]. */
export function instantOf(component: Component, name: string): number {
  const match = /^(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)Z$/.exec(only(component, name))
  if (match === null) throw new Error(`${name} is not an instant in UTC: ${only(component, name)}`)
  const [year, month, day, hours, minutes, seconds] = match.slice(1).map(Number)
  return Date.UTC(year!, month! - 1, day, hours, minutes, seconds)
}
