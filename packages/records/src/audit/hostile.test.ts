import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { forge } from '../../fixtures/forge.js'
import { canonicalJson } from '../canonical-json.js'
import type { Entry } from '../entry.js'
import { formatAuditHtml } from '../report/format-audit-html.js'
import { layout } from '../site.js'
import { auditRun } from './audit-run.js'
import { readGrounds } from './evidence.js'

const site = { folder: join(import.meta.dirname, '..', '..', 'fixtures', 'golden-v1', 'site') }
const grounds = readGrounds(site)
const file = layout.journal(site, 'golden')
const journal = readFileSync(file, 'utf8')
const odd: readonly unknown[] = [
  null,
  -1,
  1e308,
  '',
  '__proto__',
  '2026-02-30T08:00:00Z',
  [],
  [[]],
  {},
  { constructor: 1 }
]

/** Every way to reach a value inside, as names. */
function pathsOf(value: unknown): readonly (readonly string[])[] {
  if (typeof value !== 'object' || value === null) return [[]]
  return Object.entries(value).flatMap(([name, one]) => pathsOf(one).map((path) => [name, ...path]))
}

function put(value: unknown, path: readonly string[], what: unknown): unknown {
  const [name, ...rest] = path
  if (name === undefined) return what
  const inside = value as Record<string, unknown>
  if (Array.isArray(value)) return value.map((one, index) => (String(index) === name ? put(one, rest, what) : one))
  return { ...inside, [name]: put(inside[name], rest, what) }
}

describe('a hostile journal', () => {
  it('is audited without a crash, and not found good, whatever stands in any of its members', () => {
    let tried = 0
    for (const [index, line] of journal.split('\n').slice(0, -1).entries()) {
      for (const path of pathsOf(JSON.parse(line))) {
        for (const what of odd) {
          const changed = forge(journal, (entry) =>
            entry.seq === index + 1 ? (put(entry, path, what) as Entry) : entry
          )
          if (changed === journal) continue
          tried += 1
          const run = auditRun(grounds, file, Buffer.from(changed))
          if (run.verdicts.every((verdict) => verdict.answer === 'good')) {
            expect.fail(`${path.join('.')} of entry ${index + 1} as ${canonicalJson(what)} was found good`)
          }
        }
      }
    }
    expect(tried).toBeGreaterThan(2000)
  })

  it.each([
    ['nothing', Buffer.alloc(0)],
    ['line feeds', Buffer.from('\n\n\n')],
    ['zeros', Buffer.alloc(5000)],
    ['no text', Buffer.from([0xff, 0xfe, 0x0a, 0xc3, 0x0a])],
    ['a list as deep as the stack', Buffer.from(`${'['.repeat(200_000)}\n`)],
    ['a line of ten megabytes', Buffer.from(`${'x'.repeat(10_000_000)}\n`)]
  ])('of %s is told as such', (_, bytes) => {
    const run = auditRun(grounds, file, bytes)
    expect(run.verdicts.map((verdict) => verdict.answer)).not.toContain('good')
    const { limits, caution } = { limits: [], caution: '' }
    const report = {
      format: 'lockwright-audit/2',
      asked: { since: null, equipment: null, person: null, leftOut: [], covered: null },
      general: [],
      hanging: [],
      takenOffLater: [],
      open: [],
      inspections: [],
      sheets: [],
      notAnswered: [],
      site: '',
      at: '',
      root: null,
      roster: null,
      runs: [run],
      limits,
      caution
    }
    expect(formatAuditHtml(report as unknown as Parameters<typeof formatAuditHtml>[0])).toContain('</html>')
  })
})
