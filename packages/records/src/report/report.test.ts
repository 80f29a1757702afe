import type { PersonId } from '@lockwright/machine'
import Handlebars from 'handlebars'
import { describe, expect, it } from 'vitest'
import { inAuditedPlant } from '../../fixtures/audited-plant.js'
import { fanMachine } from '../../fixtures/fan-machine.js'
import { fanJob, person, plantPeople, signerOf, writeRoster } from '../../fixtures/plant.js'
import type { AuditReport } from '../audit/report.js'
import { issue } from '../issue.js'
import { startRun } from '../run.js'
import { visible } from '../visible.js'
import { formatAuditHtml } from './format-audit-html.js'
import { formatAuditText } from './format-audit-text.js'
import { htmlTemplate } from './html-template.js'
import { template } from './template.js'
import { textTemplate } from './text-template.js'

const hostile = `</td><script>alert(1)</script><img src=x onerror="alert(2)">\u001b[2J\u202egnitset\u0007\n{{caution}} &amp; '"\``

/** A draft run with hostile words wherever a person can put words, with findings of both weights. */
async function hostileReport(): Promise<AuditReport> {
  let made: AuditReport | null = null
  await inAuditedPlant(async ({ site, clock, audited }) => {
    const machine = {
      ...fanMachine,
      title: hostile,
      equipment: { ...fanMachine.equipment, name: hostile },
      waivers: [{ obligation: 'all-reached', span: fanMachine.roles[0]?.span, why: hostile, by: hostile }]
    } as unknown as typeof fanMachine
    writeRoster(
      site,
      plantPeople.map((one) => (one.id === 'odd' ? { ...one, name: hostile } : one)),
      2
    )
    issue({ site, machine, signer: signerOf('birk'), clock })
    const run = startRun({ site, machine, mode: 'draft', by: person('odd'), clock, id: 'hostile' })
    if (!run.ok) throw new Error(JSON.stringify(run.faults))
    run.value.sign({ kind: 'note', text: hostile, by: person('odd') }, signerOf('odd'))
    run.value.take({ kind: 'note', text: 'x', by: hostile as PersonId })
    run.value.take({ kind: 'done', state: machine.start, boxes: [], acknowledged: [], by: person('odd') })
    run.value.close()
    made = await audited()
  })
  return made ?? expect.fail('no report')
}

const report = await hostileReport()
const html = formatAuditHtml(report)
const text = formatAuditText(report)

describe('the report as a page', () => {
  it('holds no element and no attribute that a person wrote', () => {
    const elements = new Set([...html.matchAll(/<([a-z0-9]+)/gi)].map((match) => match[1]))
    expect(elements).not.toContain('script')
    expect(elements).not.toContain('img')
    expect(html).toContain('&lt;script&gt;alert(1)&lt;/script&gt;')
    expect(html).not.toMatch(/<[^>]*onerror/)
    expect(html).toContain('{{caution}}')
  })

  it('fetches nothing and says so to the browser', () => {
    expect(html).toContain(
      `content="default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"`
    )
    expect(html).not.toMatch(/<(link|iframe|object|embed|base|form|video|audio|image|use|foreignobject)\b/i)
    expect(html).not.toMatch(/(href|src|action)=|url\(|@import|https?:/)
  })

  it('has its elements closed and nested', () => {
    const open: string[] = []
    const empty = new Set(['meta', 'br'])
    for (const [, close, name = ''] of html.replace(/<!doctype html>/, '').matchAll(/<(\/?)([a-z0-9]+)[^>]*>/gi)) {
      if (empty.has(name)) continue
      if (close === '') open.push(name)
      else expect([name, open.pop()]).toEqual([name, name])
    }
    expect(open).toEqual([])
  })
})

describe('the report, as page and as text', () => {
  it.each([
    ['page', html],
    ['text', text]
  ])('%s: shows what does not show', (_, shown) => {
    expect(shown.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u)
    const marks = ['U+001B', 'U+202E', 'U+0007', 'U+000A'].map((code) => shown.includes(`${code}`))
    expect(marks).toEqual([true, true, true, true])
  })

  it.each([
    ['page', html],
    ['text', text]
  ])('%s: ends in the caution and never says that the work was safe', (_, shown) => {
    expect(shown).toContain('It does not say that the work was safe.')
    expect(shown).toContain('Follow the rules of the plant, local codes and qualified people')
    const claims = shown.replaceAll('It does not say that the work was safe.', '').match(/\bsafe(ly)?\b/gi)
    expect(claims).toBeNull()
  })

  it.each([
    ['page', html],
    ['text', text]
  ])('%s: marks a draft, and shows each finding with where, what, why and what to do', (_, shown) => {
    expect(shown).toContain('DRAFT')
    const findings = report.runs.flatMap((run) => run.verdicts.flatMap((verdict) => verdict.findings))
    expect(new Set(findings.map((finding) => finding.weight))).toEqual(new Set(['fault', 'doubt']))
    for (const { id, where, mend } of findings) {
      for (const part of [id, where, mend])
        expect(shown).toContain(
          Handlebars.escapeExpression(part)
            .replaceAll('&#x60;', shown === text ? '`' : '&#x60;')
            .replaceAll('&quot;', shown === text ? '"' : '&quot;')
        )
    }
  })

  it('begins, for a site, with the runs at a glance, in both forms; for one run it does not', async () => {
    const reports: AuditReport[] = []
    await inAuditedPlant(async ({ put, audited }) => {
      put('whole-job')
      put('left-open', fanJob.slice(0, 4))
      reports.push(await audited(), await audited({ run: 'left-open' }))
    })
    const [site, one] = reports as [AuditReport, AuditReport]
    const glance = { site, one }
    const lines = formatAuditText(glance.site).split('\n')
    const from = lines.findIndex((line) => line.startsWith('2 runs'))
    expect(lines.slice(from, from + 7)).toEqual([
      '2 runs: 0 with findings, 1 with something that cannot be told, 1 good throughout',
      '  verdict      whole        followed     fit   timely  due          state     procedure                run',
      '  cannot tell  cannot tell  cannot tell  good  good    cannot tell  open      F12-BEARING, revision 2  left-open',
      expect.stringMatching(/^ {6}whole: doubt unsigned-end, runs\/left-open.jsonl:1, at line/),
      expect.stringMatching(/^ {6}followed: doubt still-open, runs\/left-open.jsonl:5/),
      expect.stringMatching(/^ {6}due: doubt run-open, runs\/left-open.jsonl:5/),
      expect.stringMatching(/^ {6}still hanging: lock 17 on Q1, Odd Teig \(odd\), since 2026-03-02T/)
    ])
    expect(from).toBeLessThan(lines.findIndex((line) => line.startsWith('Run ')))
    const page = formatAuditHtml(glance.site)
    expect(page.indexOf('class="overview"')).toBeLessThan(page.indexOf('<section>'))
    expect(page).toContain('<td class="answer cannot-tell">cannot tell</td>')
    for (const one of [formatAuditText(glance.one), formatAuditHtml(glance.one)]) {
      expect(one).not.toContain('1 run:')
      expect(one).toContain('lock 17 on Q1, Odd Teig (odd), since 2026-03-02T')
    }
  })

  it('breaks no head of a column', () => {
    expect(htmlTemplate).toMatch(/th \{ white-space: nowrap;/)
  })

  it('is one run a section, and says so where there is none', async () => {
    await inAuditedPlant(async ({ audited }) => {
      const none = await audited()
      expect(formatAuditText(none)).toContain('No run is on record here.')
      expect(formatAuditHtml(none)).toContain('<p>No run is on record here.</p>')
    })
  })

  it('is the same each time', () => {
    expect(formatAuditHtml(report)).toBe(html)
    expect(formatAuditText(report)).toBe(text)
  })
})

describe('a template', () => {
  const render = (source: string, view: unknown) => template(source, { noEscape: false })(view)

  it.each([
    '{{name}}',
    '{{#if name}}x{{/if}}',
    '{{#each name}}x{{/each}}',
    '{{#each list}}{{name}}{{/each}}',
    '{{#if list}}{{../name}}{{/if}}'
  ])('that names what is not there is refused: %s', (source) => {
    expect(() => render(source, { list: [{ other: 1 }] })).toThrow()
  })

  it('that names what every object has is refused', () => {
    expect(() => render('{{#if constructor}}x{{/if}}', {})).toThrow()
  })

  it('that asks for each of what is no list, or uses another helper, is refused', () => {
    expect(() => render('{{#each name}}x{{/each}}', { name: 'abc' })).toThrow()
    expect(() => render('{{#with name}}x{{/with}}', { name: {} })).toThrow()
    expect(() => render('{{> other}}', {})).toThrow()
  })

  it('of ours holds no raw value', () => {
    expect(htmlTemplate).not.toContain('{{{')
    expect(htmlTemplate).not.toContain('{{&')
    expect(textTemplate).not.toContain('{{{')
  })
})

describe('visible', () => {
  it('leaves what shows, and writes out what does not', () => {
    expect(visible('Ærø 690 V ± 10 %, 漢字 😀')).toBe('Ærø 690 V ± 10 %, 漢字 😀')
    expect(visible('a\tb\u200bc\u2066d\u{e0041}')).toBe('a<U+0009>b<U+200B>c<U+2066>d<U+E0041>')
  })
})

describe('the issue of a revision that asks less', () => {
  it('is told with its reason', async () => {
    let told = ''
    await inAuditedPlant(async ({ site, clock, audited }) => {
      const machine = { ...fanMachine, review: 'P5Y' } as typeof fanMachine
      const reason = 'Inspected with fan 11'
      clock.pass(60)
      const issued = issue({ site, machine, signer: signerOf('birk'), clock, reason })
      if (!issued.ok) throw new Error(JSON.stringify(issued.faults))
      clock.pass(60)
      const run = startRun({ site, machine, mode: 'issued', by: person('odd'), clock, id: 'less' })
      if (!run.ok) throw new Error(JSON.stringify(run.faults))
      run.value.close()
      told = formatAuditText(await audited())
    })
    expect(told.replace(/\s+/g, ' ')).toContain('Issued for use; asks less than before, for: Inspected with fan 11')
  })
})
