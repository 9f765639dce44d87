import { chosenOf } from './chosen-project.ts'
import { recall } from './memory.ts'
import { paths } from './paths.ts'
import { hasSession, sessionHeaders } from './session-token.ts'

/**
 * Asks the browser host for what the first screen will ask for, before the program itself is loaded: the host works
 * while the browser reads a megabyte of code. In the shell nothing is asked: its port is there only later, and fast.
 */
const asked = new Map<string, Promise<Response>>()

/** The answer that is on its way to this very call, once; null when nobody asked early. */
export function earlyAnswer(path: readonly string[], input: unknown): Promise<Response> | null {
  const key = keyOf(path.join('/'), input)
  const answer = asked.get(key) ?? null
  asked.delete(key)
  return answer
}

if (hasSession && window.bayledgerShell === undefined) {
  ask('host/info')
  void ask('projects/list').then(askOfProject, leaveToTheScreen)
}

async function askOfProject(answer: Response): Promise<void> {
  if (!answer.ok) return
  const { json } = (await answer.clone().json()) as { json: { projects: { id: string }[] } }
  const project = chosenOf(json.projects, recall('project'))?.id
  if (project === undefined) return
  ask('projects/outline', { project })
  if (isToday(window.location.hash)) ask('projects/today', { project })
}

function ask(call: string, input?: unknown): Promise<Response> {
  const answer = fetch(`/rpc/${call}`, {
    method: 'POST',
    headers: { ...sessionHeaders(), 'content-type': 'application/json' },
    body: JSON.stringify(input === undefined ? {} : { json: input }),
  })
  answer.catch(leaveToTheScreen)
  asked.set(keyOf(call, input), answer)
  return answer
}

/** A call that fails is told, and asked again, by the screen that needs it: it gets this very failure. */
function leaveToTheScreen(): undefined {
  return undefined
}

function keyOf(call: string, input: unknown): string {
  return `${call} ${JSON.stringify(input ?? null)}`
}

export function isToday(hash: string): boolean {
  return hash === '' || hash === '#' || hash === `#${paths.today}`
}
