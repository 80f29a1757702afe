import { describe, expect, it } from 'vitest'
import { chooseShell } from './choose-shell.js'

const terminal = { isTTY: true }

describe('chooseShell', () => {
  it('takes the whole screen on a terminal', () => {
    expect(chooseShell(terminal, terminal, { TERM: 'xterm' })).toBe('full-screen')
  })

  it.each([
    ['a pipe on the input', {}, terminal, { TERM: 'xterm' }],
    ['a pipe on the output', terminal, {}, { TERM: 'xterm' }],
    ['a dumb terminal', terminal, terminal, { TERM: 'dumb' }],
    ['a terminal that does not say what it is', terminal, terminal, {}],
    ['NO_COLOR', terminal, terminal, { TERM: 'xterm', NO_COLOR: '1' }],
    ['a build server', terminal, terminal, { TERM: 'xterm', CI: 'true' }],
    ['a screen reader', terminal, terminal, { TERM: 'xterm', INK_SCREEN_READER: 'true' }]
  ])('takes plain lines for %s', (_, stdin, stdout, env) => {
    expect(chooseShell(stdin, stdout, env)).toBe('plain')
  })

  it('takes an empty NO_COLOR for none', () => {
    expect(chooseShell(terminal, terminal, { TERM: 'xterm', NO_COLOR: '' })).toBe('full-screen')
  })
})
