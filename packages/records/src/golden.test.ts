import { readdirSync, readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { describe, expect, it } from 'vitest'
import { makeGolden, writeGolden } from '../fixtures/golden-v1/make.js'
import { inFolder, keyOf } from '../fixtures/plant.js'
import { auditRun } from './audit/audit.js'
import { gather, readGrounds } from './audit/evidence.js'
import type { AuditFinding, RunAudit } from './audit/report.js'
import type { Found } from './audit/verdict.js'
import { whole } from './audit/whole.js'
import { sha256Hex } from './digest.js'
import { parseIssue } from './issue.js'
import { publicBytesOf } from './public-key.js'
import { parseRoster } from './roster.js'
import { layout } from './site.js'

const folder = join(import.meta.dirname, '..', 'fixtures', 'golden-v1', 'site')

if (process.env['LOCKWRIGHT_WRITE_GOLDEN'] === '1') {
  inFolder((made) => {
    makeGolden(made)
    writeGolden(made)
  })
}

const site = { folder }
const grounds = readGrounds(site)
const file = layout.journal(site, 'golden')
const bytes = readFileSync(file)
const lines = bytes
  .toString('utf8')
  .split('\n')
  .slice(0, -1)
  .map((line) => `${line}\n`)

const auditOf = (content: Uint8Array | string): RunAudit => auditRun(grounds, file, Buffer.from(content))
/** Of the first question alone, which is what a changed byte has to show in. */
const wholeOf = (content: Uint8Array): readonly Found[] => whole(gather(grounds, file, content)).found
const allGood = (run: RunAudit): boolean => run.verdicts.every((verdict) => verdict.answer === 'good')
const findingsOf = (run: RunAudit): readonly AuditFinding[] => run.verdicts.flatMap((verdict) => verdict.findings)

function flip(content: Uint8Array, position: number, bit: number): Uint8Array {
  const changed = Uint8Array.from(content)
  changed[position] = (changed[position] as number) ^ (1 << bit)
  return changed
}

function filesBelow(root: string): readonly string[] {
  return readdirSync(root, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(root, join(entry.parentPath, entry.name)))
    .toSorted()
}

describe('the golden site of format version 1', () => {
  it('is audited good in every question', () => {
    const run = auditOf(bytes)
    expect(findingsOf(run)).toEqual([])
    expect(allGood(run)).toBe(true)
    expect(run.entries.length).toBe(lines.length)
  })

  it('is what its script makes, byte for byte', () => {
    inFolder((made) => {
      makeGolden(made)
      const kept = filesBelow(folder)
      expect(kept).toEqual(filesBelow(made))
      for (const name of kept) expect(readFileSync(join(folder, name))).toEqual(readFileSync(join(made, name)))
    })
  })
})

describe('tampering with the golden journal', () => {
  it('is told for every byte, at the line that was touched or the next', () => {
    let line = 1
    for (let position = 0; position < bytes.length; position += 1) {
      const told = wholeOf(flip(bytes, position, position % 8)).some(
        (finding) => finding.seq === line || finding.seq === line + 1 || finding.id === 'torn-line'
      )
      if (!told) expect.fail(`byte ${position}, in line ${line}, was changed and not told`)
      if (bytes[position] === 0x0a) line += 1
    }
    expect(line).toBe(lines.length + 1)
  })

  it('is told for every bit of the last line, which nothing is chained to', () => {
    const from = bytes.length - Buffer.byteLength(lines.at(-1) ?? '')
    for (let position = from; position < bytes.length; position += 1) {
      for (let bit = 0; bit < 8; bit += 1) {
        if (wholeOf(flip(bytes, position, bit)).length === 0) {
          expect.fail(`bit ${bit} of byte ${position} was changed and not told`)
        }
      }
    }
  })

  it('is told for every line dropped, repeated or swapped with any other', () => {
    for (const [index, line] of lines.entries()) {
      const dropped = auditOf(lines.toSpliced(index, 1).join(''))
      const repeated = auditOf(lines.toSpliced(index, 0, line).join(''))
      if (allGood(dropped) || allGood(repeated)) expect.fail(`line ${index + 1} was dropped or repeated and not told`)
      for (let other = index + 1; other < lines.length; other += 1) {
        const swapped = lines.with(index, lines[other] as string).with(other, line)
        if (auditOf(swapped.join('')).verdicts[0].answer !== 'findings') {
          expect.fail(`lines ${index + 1} and ${other + 1} were swapped and not told`)
        }
      }
    }
  })

  it('is told for every place where the journal can be cut off', () => {
    for (let end = 0; end < bytes.length; end += 1) {
      const cut = bytes.subarray(0, end)
      const told = cut.at(-1) === 0x0a ? !allGood(auditOf(cut)) : wholeOf(cut).length > 0
      if (!told) expect.fail(`cut off at byte ${end} and not told`)
    }
  })

  it('cannot be told from the file alone where it was cut back to an older signed end; the run only counts as open', () => {
    const signed = lines.findIndex((line) => line.includes('"kind":"signed"'))
    const run = auditOf(lines.slice(0, signed + 1).join(''))
    expect(run.verdicts[0].answer).toBe('good')
    expect(run.verdicts[1].answer).toBe('cannot-tell')
    expect(run.verdicts[1].findings.map((finding) => finding.id)).toEqual(['still-open'])
  })
})

describe('tampering with what lies beside it', () => {
  const roster = grounds.roster.ok ? grounds.roster.value : null
  const digest = auditOf(bytes).summary?.machine ?? ''

  it('is told for every bit of the roster', () => {
    const people = readFileSync(layout.people(site))
    expect(parseRoster(people, '').ok).toBe(true)
    for (let position = 0; position < people.length; position += 1) {
      for (let bit = 0; bit < 8; bit += 1) {
        if (parseRoster(flip(people, position, bit), '').ok) expect.fail(`bit ${bit} of byte ${position} not told`)
      }
    }
  })

  it('is told for a roster under another root key, where the auditor knows the right one', () => {
    const people = readFileSync(layout.people(site))
    expect(parseRoster(people, '', publicBytesOf(keyOf('root'))).ok).toBe(true)
    expect(parseRoster(people, '', publicBytesOf(keyOf('birk'))).ok).toBe(false)
  })

  it('is told for every bit of the issue signature', () => {
    const signature = readFileSync(layout.issueSignature(site, digest))
    if (roster === null) return expect.fail('no roster')
    expect(parseIssue(signature, '', digest, roster).ok).toBe(true)
    for (let position = 0; position < signature.length; position += 1) {
      for (let bit = 0; bit < 8; bit += 1) {
        if (parseIssue(flip(signature, position, bit), '', digest, roster).ok) {
          expect.fail(`bit ${bit} of byte ${position} not told`)
        }
      }
    }
  })

  it('is told for the machine, whose bytes are what the first entry is chained to', () => {
    expect(sha256Hex(readFileSync(layout.issued(site, digest)))).toBe(digest)
    expect(JSON.parse(lines[0] ?? '').prev).toBe(digest)
  })
})
