import { spawnSync } from 'node:child_process'
import { readdirSync, readFileSync } from 'node:fs'
import { dotOf, promelaOf, scxmlOf, svgOf } from '@lockwright/machine/exports'
import { describe, expect, it } from 'vitest'
import { machineOf } from '../end-to-end/compile-text.js'
import { withHostileWords } from './hostile-words.js'
import { twoAxes } from './two-axes.js'

const folder = new URL('../../procedures/', import.meta.url)
const procedures = readdirSync(folder).filter((name) => name.endsWith('.md') && name !== 'README.md')
const texts: readonly (readonly [string, string])[] = [
  ...procedures.map((name) => [name, readFileSync(new URL(name, folder), 'utf8')] as const),
  ['two axes', twoAxes]
]

// References: libxml2 and Graphviz, as packaged by Debian.
const tools = { xmllint: installed('xmllint', 'libxml2-utils'), dot: installed('dot', 'graphviz') }

function installed(program: string, debianPackage: string): boolean {
  const found = spawnSync(program, ['--version']).error === undefined
  if (!found) {
    process.stderr.write(
      `\n!!! SKIPPED: ${program} is not installed, so it read nothing. On Debian: apt-get install ${debianPackage}\n\n`
    )
  }
  return found
}

describe.each(texts)('the drawing of %s', (_, text) => {
  const machine = machineOf(text)

  it('shows every step once, and every way on by a line or by its number', () => {
    const svg = svgOf(machine)
    const steps = [...svg.matchAll(/<g id="step-(\d+)">/g)].map((match) => Number(match[1]))
    expect([...steps].sort((one, other) => one - other)).toEqual(machine.states.map((_state, index) => index + 1))
    const numbers = new Map(machine.states.map(({ id }, index) => [id, index + 1]))
    // Values of the hardware with one way on are one way; a reading taken again leads nowhere else.
    const ways = machine.states.flatMap(({ exits }) => {
      const told = exits.filter(({ on }) => on !== 'again')
      const plain = new Set(told.filter(({ on }) => on !== 'late' && on !== 'answer').map(({ to }) => numbers.get(to)))
      const late = new Set(told.filter(({ on }) => on === 'late').map(({ to }) => numbers.get(to)))
      return [...plain, ...told.filter(({ on }) => on === 'answer').map(({ to }) => numbers.get(to)), ...late]
    })
    const lines = [...svg.matchAll(/<polyline class="line"/g)].length
    const told = [...svg.matchAll(/→ (\d+)/g)].map((match) => Number(match[1]))
    expect(lines + told.length).toBe(ways.length)
    for (const number of told) expect(ways).toContain(number)
    for (const [, to] of svg.matchAll(/href="#step-(\d+)"/g)) expect(steps).toContain(Number(to))
    expect(svg).toContain('follow the rules of the plant, local codes and qualified people')
    expect(svgOf(machine)).toBe(svg)
  })

  it.runIf(tools.dot)('is read by Graphviz with every step, section and way on', () => {
    const graph = readByGraphviz(dotOf(machine))
    expect(graph.steps).toBe(machine.states.length)
    expect(graph.clusters).toBeGreaterThan(0)
    const onward = machine.states.flatMap(({ exits }) =>
      exits.filter(({ on, to }) => on !== 'again' && to !== undefined)
    )
    expect(graph.ways).toBeGreaterThan(machine.states.length - 5)
    expect(graph.ways).toBeLessThanOrEqual(onward.length)
  })
})

describe('words of an author that look like code', () => {
  const machine = withHostileWords(machineOf(twoAxes))

  it.runIf(tools.xmllint)('stay words in SVG and SCXML', () => {
    for (const xml of [svgOf(machine), scxmlOf(machine)]) {
      const { status, stderr } = spawnSync('xmllint', ['--noout', '-'], { input: xml, encoding: 'utf8' })
      expect(stderr).toBe('')
      expect(status).toBe(0)
    }
  })

  it('make no element, comment or attribute', () => {
    const plain = svgOf(machineOf(twoAxes))
    expect(tagsOf(svgOf(machine)).filter((tag) => !tagsOf(plain).includes(tag))).toEqual([])
    expect(svgOf(machine)).toContain('&lt;script&gt;')
    expect(tagsOf(scxmlOf(machine)).sort()).toEqual(['final', 'scxml', 'state', 'transition'])
    expect(scxmlOf(machine).match(/--(?!>)/g)?.length).toBe(scxmlOf(machine).match(/<!--|\w--\w/g)?.length)
  })

  it.runIf(tools.dot)('stay words in the language of Graphviz', () => {
    const odd = readByGraphviz(dotOf(machine))
    expect(odd.steps).toBe(machine.states.length)
    expect(odd.title).toContain(`<script>alert('&')</script> "q"`)
  })

  it('end no comment and no string of a Promela model', () => {
    const model = promelaOf(machine)
    const comments = model.replace(/^\s*printf.*$/gm, '').match(/\/\*|\*\//g) ?? []
    expect(comments.length).toBeGreaterThan(8)
    expect(comments.every((mark, index) => mark === (index % 2 === 0 ? '/*' : '*/'))).toBe(true)
    const strings = model.match(/printf\(.*\);$/gm) ?? []
    expect(strings.length).toBe(machine.states.length)
    for (const line of strings) expect(line).toMatch(/^printf\("[^"\\]*\\n"\);$/)
  })
})

function tagsOf(xml: string): string[] {
  const bare = xml.replace(/<!--[\s\S]*?-->/g, '')
  return [...new Set([...bare.matchAll(/<([A-Za-z!][^\s/>]*)/g)].map((match) => match[1] ?? ''))]
}

function readByGraphviz(dot: string): { steps: number; clusters: number; ways: number; title: string } {
  const { status, stdout, stderr } = spawnSync('dot', ['-Tdot_json'], { input: dot, encoding: 'utf8' })
  if (status !== 0 || /Error|Warning/.test(stderr)) throw new Error(stderr)
  const graph = JSON.parse(stdout) as { label: string; objects: { name: string }[]; edges: unknown[] }
  const clusters = graph.objects.filter(({ name }) => name.startsWith('cluster_')).length
  return {
    steps: graph.objects.length - clusters,
    clusters,
    ways: graph.edges.length,
    title: graph.label.replaceAll('&amp;', '&')
  }
}
