import type { Machine, Snapshot, State } from '@lockwright/machine'
import type { Page } from '../step/screen.js'
import { prose } from '../text/prose.js'
import { visible } from '../text/visible.js'

/**
 * All steps in the order in which they are read; the one where the run stands is marked. With words to look for, only
 * the steps that hold them, each with the first line in which they stand.
 */
export function wholePage(machine: Machine, snapshot: Snapshot, words = ''): Page {
  const lines: string[] = []
  let section: string | null = null
  let found = 0
  for (const state of machine.states) {
    if (state.kind === 'branch' || state.kind === 'timer' || state.kind === 'back') continue
    const hit = words === '' ? null : lineWith(state, words)
    if (hit === undefined) continue
    found++
    if (state.section !== section) {
      section = state.section
      const heading = machine.sections.find(({ id }) => id === section)
      if (heading !== undefined) lines.push(visible(heading.title))
    }
    const here = state.id === snapshot.state
    lines.push(visible(`${here ? '=>' : '  '} ${state.title} (${state.id})${here ? '  <= here' : ''}`))
    if (hit !== null && hit !== state.title) lines.push(visible(`     ${hit}`))
  }
  if (words === '') return { title: 'The whole procedure', lines }
  const title = visible(`Steps with \`${words}\`: ${found}`)
  return { title, lines: found === 0 ? ['No step holds it. `whole` alone shows all steps.'] : lines }
}

/** The first line of a step that holds these words, capitals or not; undefined where none does. */
function lineWith(state: State, words: string): string | undefined {
  const notices = state.notices.flatMap(({ word, label, body }) => [`${word.toUpperCase()}: ${label}`, ...prose(body)])
  const lines = [state.title, ...notices, ...prose(state.intro), ...prose(state.body), state.id]
  return lines.find((line) => line.toLowerCase().includes(words.toLowerCase()))
}
