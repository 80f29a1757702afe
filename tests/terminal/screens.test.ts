import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { command, root } from '../cli/transcript.js'
import { hasTmux, openTmux } from './tmux.js'

const fixtures = join(dirname(fileURLToPath(import.meta.url)), 'fixtures')
const pump = join(root, 'procedures/booster-pump-precharge.md')
/** Columns, rows, and how often a page is turned there at most. */
const sizes = [
  [80, 24, 3],
  [40, 20, 8],
  [200, 60, 0]
] as const

if (!hasTmux) process.stderr.write('SKIPPED: the screens in tmux; tmux is not here.\n')

let cwd: string
beforeAll(() => {
  cwd = mkdtempSync(join(tmpdir(), 'lockwright-screens-'))
})
afterAll(() => rmSync(cwd, { recursive: true, force: true }))

/** What is typed before each picture, and what is on the screen then. */
const scenes: readonly (readonly [name: string, lines: readonly string[], there: string])[] = [
  ['the first step', [], 'step 1 of about'],
  ['what can be typed', ['help'], 'What can be typed at every step'],
  [
    'a notice before its step',
    ['', '1 2 3 4 5 6 7 8', 'gathered', '1', '1', 'told', '1 2', 'shut down'],
    'WARNING: Q1 is not a switch'
  ],
  ['a lock that hangs', ['read', '17'], 'or locked: yes'],
  ['why a step is asked for', ['why'], 'Why: Lock Q1'],
  [
    'a wait',
    ['', 'locked', '18', '19', 'locked too', '1 2', 'released', '1', 'fitted', 'read', 'start'],
    'The wait runs'
  ],
  [
    'what has to be proven dead',
    ['skip', 'released', 'looked', 'clear', '1 2', 'tried', 'sign', 'read'],
    'type 1, 2, 3: that line'
  ],
  ['a reading that is live', ['1 2 3', ...Array.from({ length: 9 }, () => '0 V'), '120 V'], 'LIVE: step back'],
  [
    'how it falls',
    ['the bleed resistor is slow', '112 V', 'it still falls', '104 V', 'it still falls'],
    '104 V, out of'
  ],
  ['everything that holds energy', ['sources'], 'Sources, locks and crew']
]

describe.skipIf(!hasTmux)('the full screen in tmux', { timeout: 120_000 }, () => {
  it.each(sizes)(
    'shows at %i x %i what the fixture shows (paged %i times before each answer)',
    async (columns, rows, pages) => {
      const tmux = await openTmux(columns, rows, { cwd, env: { TZ: 'UTC' } })
      const captures: string[] = []
      const keep = (name: string, shown: string): void => {
        captures.push(`===== ${name}\n${shown}\n`)
      }
      try {
        tmux.type(`${process.execPath} ${command} step ${pump} --rehearse --path 1 --clock 2026-03-02T07:00:00Z`)
        tmux.key('Enter')
        for (const [name, lines, there] of scenes) {
          if (lines.length > 0) tmux.lines(lines, pages)
          keep(name, await tmux.until(there))
        }
        tmux.resize(12, 5)
        keep('a window of 12 by 5', await tmux.until('Window too'))
        tmux.resize(columns, rows)
        keep('back to its size', await tmux.until('Sources, locks and crew'))
        tmux.key('C-c')
        // The screen from before the command comes back, the command line on it.
        const after = await tmux.until(/is over; *no/)
        expect(after).toContain('--clock')
        expect(after).not.toContain('SOURCES')
        keep('after the command', after.slice(after.indexOf('A rehearsal:')))
      } finally {
        tmux.close()
      }
      const file = join(fixtures, `${columns}x${rows}.txt`)
      const shown = captures.join('\n')
      if (process.env['UPDATE_FIXTURES'] === '1') {
        mkdirSync(fixtures, { recursive: true })
        writeFileSync(file, shown)
      }
      expect(shown).toBe(readFileSync(file, 'utf8'))
    }
  )
})
