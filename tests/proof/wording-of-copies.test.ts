import { prove } from '@lockwright/proof'
import { describe, expect, it } from 'vitest'
import { machineOf } from '../end-to-end/compile-text.js'
import { gauge, textOf, water } from './wording-case.js'

describe('copies of a step', () => {
  it('say the same thing of one place once', () => {
    const body = `${gauge}\n\n# Again\n\n::relieve{of=water}\n\n# More\n\n::repeat{section=again}\n\n::repeat{section=again}`
    const verdict = prove(machineOf(textOf({ head: water, body, name: '', id: '', what: '' })))
    const found = verdict.kind === 'refused' ? verdict.diagnostics.filter(({ id }) => id === 'wait-enough') : []
    expect(found).toHaveLength(1)
    expect(found[0]?.what.match(/Nothing says how/gu)).toHaveLength(1)
    expect(found[0]?.related).toHaveLength(1)
  })
})
