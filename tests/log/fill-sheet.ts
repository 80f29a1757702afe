import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { prove } from '@lockwright/proof'
import { formFieldsOf } from '@lockwright/runner-paper'
import { machineOf } from '../end-to-end/compile-text.js'

export const procedure = join(import.meta.dirname, '../../procedures/booster-pump-precharge.md')
const proved = prove(machineOf(readFileSync(procedure, 'utf8'), procedure))
if (proved.kind !== 'proved') throw new Error('the procedure is not proved')
export const { machine } = proved
export const sheetFields = formFieldsOf(machine)
/** What Tor would write on a screen: every tick of the way he took, a time every five minutes, and what he read. */
export function filledIn(upTo: string | null): Record<string, string | true> {
  const way = machine.states.map(({ id }) => id as string)
  const skipped = new Set(['prepare.3', 'change-the-module.3', 'hand-back.10', 'hand-back.11'])
  const filled: Record<string, string | true> = { '#sheet.1.completed-date': '2026-03-04 11:00' }
  let minutes = 7 * 60
  let over = false
  for (const state of way) {
    if (skipped.has(state) || over) continue
    if (state === upTo) over = true
    if (over) continue
    const fields = sheetFields.filter((field) => field.state === state && field.pass === 1)
    const wait = fields.some(({ input }) => input.endsWith('-started'))
    for (const { input, kind, name } of fields) {
      if (kind === 'tick') filled[name] = true
      else if (input === 'initials') filled[name] = state === 'back-in-service' ? 'MH' : 'T.L.'
      else if (input.endsWith('-started')) filled[name] = clockTime(minutes)
      // A wait is left once it is over.
      else if (input === 'time') filled[name] = clockTime(minutes + (wait ? 20 : 0))
      else if (kind === 'lock') filled[name] = { Q1: '17', Q2: '18', V1: '19' }[input.split('-')[1] ?? ''] ?? '20'
      else if (input === 'reading') filled[name] = '931'
      else if (kind === 'reading') filled[name] = input.includes('water') ? '0' : '0,4 V'
      else if (input === 'choice')
        filled[name] = { 'prepare.1': 'series-t', window: 'answer-1', link: 'inside' }[state] ?? 'series-t'
      else if (input === 'sign') filled[name] = state === 'back-in-service' ? 'Mira Holt' : 'Tor Lind'
    }
    minutes += wait ? 20 : 5
  }
  filled['#notes.1.1-step'] = '7'
  filled['#notes.1.1-what'] = 'The handle was stiff'
  return filled
}

const clockTime = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`
