import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type AuditReport, formatAuditHtml } from '@lockwright/records'
import { PNG } from 'pngjs'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { inEventfulSite } from './eventful-site.js'

/** A real browser from Debian; `.ci/run` installs it. Without it these tests say so and look at nothing. */
const chromium = ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find(existsSync)
const folder = mkdtempSync(join(tmpdir(), 'lockwright-page-'))
let report: AuditReport

beforeAll(async () => {
  await inEventfulSite(async ({ audited }) => {
    report = await audited()
  })
  writeFileSync(join(folder, 'page.html'), formatAuditHtml(report))
  if (chromium === undefined)
    process.stdout.write('chromium is not installed here: the page was not seen in a browser\n')
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

function browse(...options: readonly string[]) {
  const { stdout, stderr, status } = spawnSync(
    chromium ?? '',
    [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--hide-scrollbars',
      `--user-data-dir=${join(folder, 'profile')}`,
      '--enable-logging=stderr',
      ...options
    ],
    { encoding: 'utf8', timeout: 60_000, maxBuffer: 64 * 1024 * 1024 }
  )
  expect(status).toBe(0)
  return { stdout, stderr }
}

let kept: ReturnType<typeof browse> | null = null
function dumped(): ReturnType<typeof browse> {
  kept ??= browse('--dump-dom', address())
  return kept
}

const address = (name = 'page.html') => `file://${join(folder, name)}`

describe.runIf(chromium !== undefined)('the page in Chromium', () => {
  it('is parsed as it was written, without a word on the console', () => {
    const { stdout, stderr } = dumped()
    expect(stderr).not.toMatch(/CONSOLE|Refused to|Content Security Policy/)
    const count = (tag: string, text: string): number => text.split(new RegExp(`<${tag}[\\s>]`)).length - 1
    const written = readFileSync(join(folder, 'page.html'), 'utf8')
    for (const tag of ['table', 'tr', 'th', 'td', 'figure', 'svg', 'polyline', 'rect', 'text', 'section']) {
      expect([tag, count(tag, stdout)]).toEqual([tag, count(tag, written)])
    }
    expect(stdout).not.toMatch(/<(script|img|b)[\s>]/)
    expect(stdout).toContain('Ærø &lt;b&gt;')
  })

  it('says a console error where there is one, so the check above can fail', () => {
    writeFileSync(join(folder, 'bad.html'), '<!doctype html><script>throw new Error("planted")</script>')
    expect(browse('--dump-dom', address('bad.html')).stderr).toMatch(/CONSOLE.*planted/)
  })

  it('gives its tables heads that are read out with each cell, a caption each, and its charts a description', () => {
    const { stdout } = dumped()
    const tables = stdout.split('<table').slice(1)
    expect(tables.length).toBeGreaterThan(4)
    for (const table of tables) {
      expect(table).toMatch(/<caption>[^<]+<\/caption>/)
      expect(table).toMatch(/<thead><tr>(<th scope="col"[^>]*>[^<]*<\/th>)+<\/tr><\/thead>/)
    }
    expect(stdout.match(/<th scope="row"><code>/g)?.length).toBe(report.runs.length)
    const labels = [...stdout.matchAll(/<svg [^>]*role="img" aria-label="([^"]+)"/g)].map(([, label]) => label)
    expect(labels.map((label) => label?.split(/[.:]/)[0])).toEqual([
      'Runs by month',
      'Waits against the least wait',
      'Locks that hang now, by age'
    ])
  })

  it.each([
    ['a desk', '1200,1600'],
    ['a telephone', '400,1600']
  ])('shows ink on the screen of %s', (_, size) => {
    const file = join(folder, `${size}.png`)
    browse(`--window-size=${size}`, `--screenshot=${file}`, address())
    const { width, height, data } = PNG.sync.read(readFileSync(file))
    let dark = 0
    for (let at = 0; at < data.length; at += 4) if ((data[at] ?? 255) < 100) dark += 1
    expect(width * height).toBe(size.split(',').reduce((product, side) => product * Number(side), 1))
    expect(dark / (width * height)).toBeGreaterThan(0.005)
    expect(dark / (width * height)).toBeLessThan(0.4)
  })

  it('prints on pages, every run among them, in black on white', () => {
    const file = join(folder, 'page.pdf')
    browse('--no-pdf-header-footer', `--print-to-pdf=${file}`, address())
    const { stdout } = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' })
    for (const { run } of report.runs) expect(stdout).toContain(run)
    expect(stdout).toContain('What this audit cannot see')
    expect(stdout.split('\f').length).toBeGreaterThan(3)
  })
})
