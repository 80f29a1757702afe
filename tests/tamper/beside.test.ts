import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { checkLog, checkProofFile, proveRun, type Site } from '@lockwright/records'
import { describe, expect, it, vi } from 'vitest'
import { goldenSites } from '../../packages/records/fixtures/golden-sites.js'
import { sha256Hex } from '../../packages/records/src/digest.js'
import { parseInspection } from '../../packages/records/src/inspection/inspection.js'
import { parseInstruments } from '../../packages/records/src/instruments/instruments-text.js'
import { keptMachine, parseIssue } from '../../packages/records/src/issue.js'
import { endBytes, logFolder } from '../../packages/records/src/log/log-folder.js'
import { parseRoster, type Roster } from '../../packages/records/src/roster.js'
import { layout } from '../../packages/records/src/site.js'
import { eachVariant, everyByte, goldenJournals, inCopyOf, replaced } from './tampering.js'

// Total: each byte of each file beside the journals, twice.

const second = goldenSites[1] ?? expect.fail('no second golden site')

// On a computer that does much else besides.
vi.setConfig({ testTimeout: 300_000 })

describe.each(goldenSites)('what lies beside the journals of format $version', (golden) => {
  const { site } = golden
  const people = readFileSync(layout.people(site))
  const read = parseRoster(people, 'people.yaml')
  const roster: Roster = read.ok ? read.value : expect.fail('no roster')
  const digest = goldenJournals.find((one) => one.golden === golden)?.entries[0]?.opens?.machine ?? ''

  it('is told for every byte of the roster', () => {
    for (const { position, changed } of everyByte(people)) {
      if (parseRoster(changed, '').ok) expect.fail(`byte ${position} was changed and not told`)
    }
  })

  it('is told for every byte of the issue signature', () => {
    const bytes = readFileSync(layout.issueSignature(site, digest))
    expect(parseIssue(bytes, '', digest, roster).ok).toBe(true)
    for (const { position, changed } of everyByte(bytes)) {
      if (parseIssue(changed, '', digest, roster).ok) expect.fail(`byte ${position} was changed and not told`)
    }
  })

  it('is told for every byte of the machine', async () => {
    const bytes = readFileSync(layout.issued(site, digest))
    expect(sha256Hex(bytes)).toBe(digest)
    let variants = 0
    for (const { position, changed } of everyByte(bytes)) {
      if (sha256Hex(changed) === digest) expect.fail(`byte ${position} was changed and not told`)
      variants += 1
    }
    expect(variants).toBeGreaterThan(20_000)
    // That the digest is what a reader goes by; every byte in its place would take a minute of writing.
    await inCopyOf(golden, (copy) => {
      const file = layout.issued(copy, digest)
      expect(keptMachine(copy, digest).ok).toBe(true)
      for (let position = 0; position < bytes.length; position += 101) {
        writeFileSync(file, replaced(bytes, position, (bytes[position] as number) ^ 1))
        expect(keptMachine(copy, digest).ok, `byte ${position}`).toBe(false)
      }
    })
  })
})

describe('what lies beside the journals of format 2 alone', () => {
  const bytes = readFileSync(layout.instruments(second.site))
  const people = parseRoster(readFileSync(layout.people(second.site)), '')
  const root = people.ok ? people.value.root : ''

  it('is told for every byte of the list of instruments', () => {
    expect(parseInstruments(bytes, '', [root]).ok).toBe(true)
    for (const { position, changed } of everyByte(bytes)) {
      if (parseInstruments(changed, '', [root]).ok) expect.fail(`byte ${position} was changed and not told`)
    }
  })

  it('is told for every byte of the record of an inspection', () => {
    const record = readFileSync(join(layout.inspections(second.site), 'golden.jws'))
    if (!people.ok) throw new Error(people.faults[0].what)
    expect(parseInspection(record, '', people.value).ok).toBe(true)
    for (const { position, changed } of everyByte(record)) {
      if (parseInspection(changed, '', people.value).ok) expect.fail(`byte ${position} was changed and not told`)
    }
  })

  const kept = readFileSync(logFolder.checkpoint(second.site), 'utf8')
  const good = (site: Site): boolean => {
    const checked = checkLog({ site, kept })
    return checked.ok && checked.value.findings.length === 0
  }

  it.each([
    ['leaf', 'leaves.jsonl', 0],
    // Where each other leaf ends is an index, made of the leaves: see below.
    ['count of the leaves', 'leaves.ends', endBytes],
    ['tile', join('tile', '0', '000.p', '2'), 0]
  ])('is told, by whoever kept the checkpoint, for every byte of the %s in the log', async (_, name, from) => {
    await inCopyOf(second, (copy) => {
      expect(good(copy)).toBe(true)
      eachVariant(join(logFolder.folder(copy), name), (position) => {
        if (position >= from && good(copy)) expect.fail(`byte ${position} of ${name} was changed and not told`)
      })
    })
  })

  it.each(['leaves.ends', join('numbers', '83'), join('numbers', 'e2'), 'checkpoint', join('checkpoints', '2')])(
    'proves nothing that is not so, whatever byte of %s was changed',
    async (name) => {
      await inCopyOf(second, (copy) => {
        eachVariant(join(logFolder.folder(copy), name), (position) => {
          for (const run of ['fan', 'stopped']) {
            const proof = proveRun(copy, run)
            if (!proof.ok) continue
            const proven = checkProofFile(proof.value, '', root)
            if (proven.ok) expect(proven.value.leaf.run, `byte ${position}`).toBe(run)
          }
        })
      })
    }
  )

  it('is told for every byte of a checkpoint that was kept', () => {
    const checkpoint = Buffer.from(kept)
    for (const { position, changed } of everyByte(checkpoint)) {
      const checked = checkLog({ site: second.site, kept: Buffer.from(changed).toString('utf8') })
      if (checked.ok && checked.value.findings.length === 0) expect.fail(`byte ${position} was changed and not told`)
    }
  })
})
