import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { machineOf } from './compile-text.js'

const press = readFileSync(new URL('../../procedures/baling-press-platen.md', import.meta.url), 'utf8')

/** Minutes of the first step of each remedy, told by the line that names it. */
function minutesOf(text: string): readonly (number | null)[] {
  return machineOf(text)
    .states.filter(({ intro }) => JSON.stringify(intro).includes('"Remedy '))
    .map(({ minutes }) => minutes)
}

describe('the usual minutes of a remedy', () => {
  it('stand at its first step', () => {
    const written = [...press.matchAll(/::remedy\[[^\]]*\]\{[^}]*minutes=(\d+)/g)].map(([, minutes]) => Number(minutes))
    expect(written.length).toBeGreaterThan(1)
    expect(minutesOf(press)).toEqual(written)
  })

  it('are not added to minutes that its steps have of their own', () => {
    const text = press.replaceAll(/(::remedy\[[^\]]*\]\{[^}]*\}\n)/g, '$1:::work{minutes=7}\nGet ready.\n:::\n\n')
    expect(new Set(minutesOf(text))).toEqual(new Set([7]))
  })
})
