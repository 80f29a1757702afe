import type { Machine, Snapshot } from '@lockwright/machine'
import type { Page } from '../step/screen.js'
import { visible } from '../text/visible.js'

/** All steps in the order in which they are read; the one where the run stands is marked. */
export function wholePage(machine: Machine, snapshot: Snapshot): Page {
  const lines: string[] = []
  let section: string | null = null
  for (const state of machine.states) {
    if (state.kind === 'branch' || state.kind === 'timer' || state.kind === 'back') continue
    if (state.section !== section) {
      section = state.section
      const heading = machine.sections.find(({ id }) => id === section)
      if (heading !== undefined) lines.push(visible(heading.title))
    }
    const here = state.id === snapshot.state
    lines.push(visible(`${here ? '=>' : '  '} ${state.title} (${state.id})${here ? '  <= here' : ''}`))
  }
  return { title: 'The whole procedure', lines }
}
