/**
 * `node tests/bench/paper.mjs`: pages a second of the printed checklist beside bare pdfkit, which draws as many runs of text of
 * the same lengths, as many boxes and lines and as many pages with the same fonts, but no structure, no fields and no
 * layout. Of a long sheet those are what is left over the target: 65 pages hold 1,600 fields and 7,500 elements of structure, which
 * the bare file lacks. Processor time in one process and in turns, the median over rounds. With a procedure of 60 pages besides.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { cpus } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { inflateSync } from 'node:zlib'
import { parseProcedure } from '@lockwright/language'
import { digestOf } from '@lockwright/machine'
import { compile } from '@lockwright/machine/lower'
import { prove } from '@lockwright/proof'
import { printProcedure } from '@lockwright/runner-paper'
import { median } from './median.mjs'
import { longProcedure } from './paper-procedure.mjs'

const here = dirname(fileURLToPath(import.meta.url))
const root = join(here, '../..')
const library = createRequire(join(root, 'packages/runner-paper/package.json'))
const { unpackWoff } = await import(join(root, 'packages/runner-paper/dist/draw/unpack-woff.js'))
const { default: PDFDocument } = await import(library.resolve('pdfkit').replace(/pdfkit\.js$/, 'pdfkit.node.mjs'))
const faces = { regular: '400-normal', bold: '700-normal', oblique: '400-italic' }

export function provedText(text, file = 'procedure.md') {
  const procedure = parseProcedure({ file, text })
  if (!procedure.ok) throw new Error(procedure.diagnostics.map(({ what }) => what).join('; '))
  const machine = compile(procedure.value)
  if (!machine.ok) throw new Error(machine.diagnostics.map(({ what }) => what).join('; '))
  const verdict = prove(machine.value, { file })
  if (verdict.kind !== 'proved') throw new Error(verdict.diagnostics.map(({ id, what }) => `${id}: ${what}`).join('; '))
  return verdict.machine
}

export function sheet(machine, digest = digestOf(machine)) {
  return printProcedure(machine, {
    paper: 'a4',
    issue: { kind: 'draft' },
    digest,
    now: '2027-03-02T07:00:00Z',
    serial: 'S-000017'
  })
}

/** By page, the lengths of its runs of text and how many boxes and lines it has: counted in the file, not in our code. */
function countedIn(pdf) {
  const text = Buffer.from(pdf).toString('latin1')
  const pages = []
  for (const match of text.matchAll(/\/Length \d+\n\/Filter \/FlateDecode\n>>\nstream\n/g)) {
    const start = match.index + match[0].length
    const length = Number(/\d+/.exec(match[0])[0])
    const stream = inflateSync(Buffer.from(text.slice(start, start + length), 'latin1')).toString('latin1')
    if (!/\bBT\b/.test(stream)) continue
    const runs = [...stream.matchAll(/\bBT\b[\s\S]*?\bET\b/g)].map(([run]) =>
      Math.max(
        1,
        [...run.matchAll(/<([0-9a-f]+)>/g)].reduce((sum, [, hex]) => sum + hex.length / 4, 0)
      )
    )
    pages.push({ runs, paths: [...stream.matchAll(/(?:^|\s)(?:S|f|B|s|b|f\*)(?=\s|$)/g)].length })
  }
  return pages
}

/** Words of the procedure itself, so that both set the same letters. */
function drawBare(pages, words) {
  return new Promise((resolve, reject) => {
    const document = new PDFDocument({ size: 'A4', margin: 0, autoFirstPage: false, font: null })
    const chunks = []
    document.on('data', (chunk) => chunks.push(chunk))
    document.on('end', () => resolve(Buffer.concat(chunks)))
    document.on('error', reject)
    for (const [face, file] of Object.entries(faces))
      document.registerFont(
        face,
        unpackWoff(readFileSync(library.resolve(`@fontsource/dejavu-sans/files/dejavu-sans-latin-${file}.woff`)))
      )
    let at = 0
    for (const { runs, paths } of pages) {
      document.addPage()
      runs.forEach((length, index) => {
        const text = words.slice(at, at + length)
        at = (at + length) % (words.length - 200)
        document.font(index % 4 === 0 ? 'bold' : 'regular').fontSize(9)
        document.text(text, 40 + (index % 3) * 150, 40 + ((index * 11) % 740), { lineBreak: false })
      })
      for (let index = 0; index < paths; index += 1)
        document.rect(40 + (index % 9) * 50, 60 + ((index * 9) % 700), 45, 20).stroke()
    }
    document.end()
  })
}

/** Milliseconds of processor time, collecting garbage included: on a machine that others use as well, the clock tells of them. */
async function processorTime(work) {
  const before = process.cpuUsage()
  await work()
  const { user, system } = process.cpuUsage(before)
  return (user + system) / 1000
}

export async function measurePaper(name, text, rounds) {
  const machine = provedText(text, name)
  const digest = digestOf(machine)
  const counted = countedIn(await sheet(machine, digest))
  const words = text.replace(/\s+/g, ' ').repeat(Math.ceil(4000 / text.length))
  await drawBare(counted, words)
  const [own, bare] = [[], []]
  for (let round = 0; round < rounds; round += 1) {
    own.push(await processorTime(() => sheet(machine, digest)))
    bare.push(await processorTime(() => drawBare(counted, words)))
  }
  const pages = counted.length
  return {
    procedure: name,
    pages,
    runs: counted.reduce((sum, page) => sum + page.runs.length, 0),
    boxesAndLines: counted.reduce((sum, page) => sum + page.paths, 0),
    milliseconds: { sheet: median(own), bare: median(bare) },
    pagesASecond: { sheet: (1000 * pages) / median(own), bare: (1000 * pages) / median(bare) },
    ratio: median(own) / median(bare)
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const read = (file) => readFileSync(join(root, 'procedures', file), 'utf8')
  const results = [
    await measurePaper('booster-pump-precharge.md', read('booster-pump-precharge.md'), 15),
    await measurePaper('baling-press-platen.md', read('baling-press-platen.md'), 9),
    await measurePaper('60 pages', longProcedure(240), 11)
  ]
  process.stdout.write('Printing beside bare pdfkit with as many runs of text and boxes (target: ratio <= 1.5)\n')
  for (const { procedure, pages, runs, boxesAndLines, milliseconds, pagesASecond, ratio } of results)
    process.stdout.write(
      `  ${procedure}: ${pages} pages, ${runs} runs, ${boxesAndLines} boxes and lines; ${milliseconds.sheet.toFixed(0)} ms against ${milliseconds.bare.toFixed(0)} ms; ${pagesASecond.sheet.toFixed(1)} against ${pagesASecond.bare.toFixed(1)} pages a second; ratio ${ratio.toFixed(2)}\n`
    )
  mkdirSync(join(here, 'out'), { recursive: true })
  const about = { node: process.versions.node, cores: cpus().length, target: 1.5 }
  writeFileSync(join(here, 'out/paper.json'), `${JSON.stringify({ ...about, results }, null, 2)}\n`)
  if (process.argv.includes('--enforce') && results.some(({ ratio }) => ratio > 1.5)) process.exitCode = 1
}
