import { appendFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { sha256Hex } from '../digest.js'
import { writeDurably } from '../durable-file.js'
import { completeLog } from '../log/complete-log.js'
import { layout, makeFolders, type Site } from '../site.js'
import {
  fileOf,
  finished,
  hung,
  newRoot,
  note,
  runOf,
  sampleLeaf,
  sampleLines,
  sampleRoster
} from './conformance/sample-records.js'
import { folderStore } from './folder-store.js'
import { memoryStore } from './memory-store.js'
import { signStoreLog } from './sign-store-log.js'
import { documentFolders, type Store, signedNames } from './store.js'
import { StoreFailure } from './store-failure.js'
import { syncSite } from './sync.js'

let site: Site
const root = newRoot()
const photo = Buffer.from('a photo')
const machine = Buffer.from('{"procedure":"F12-BEARING"}')
const closed = sampleLines({ run: 'a', events: [note('x'), finished] })
const longer = sampleLines({ run: 'b', events: [...Array.from({ length: 7 }, (_, n) => note(`${n}`)), finished] })
const open = sampleLines({ run: 'c', events: [hung('Q1', '17')] })

beforeEach(() => {
  site = makeFolders(mkdtempSync(join(tmpdir(), 'lockwright-sync-')))
  writeDurably(layout.people(site), sampleRoster(root, 3))
  writeDurably(join(site.folder, 'attachments', sha256Hex(photo)), photo)
  writeDurably(layout.issued(site, sha256Hex(machine)), machine)
  writeDurably(layout.issueSignature(site, sha256Hex(machine)), 'a signature\n')
  writeDurably(layout.tornLine(site, 'a', 1), 'torn')
  for (const [run, lines] of Object.entries({ a: closed, b: longer, c: open })) {
    writeDurably(layout.journal(site, run), fileOf(lines))
  }
  completeLog(site)
})

afterEach(() => rmSync(site.folder, { recursive: true, force: true }))

/** All that a store holds, as text. */
async function contentOf(store: Store): Promise<unknown> {
  const text = (bytes: Uint8Array | null) => (bytes === null ? null : Buffer.from(bytes).toString('base64'))
  const documents = []
  for (const folder of documentFolders) {
    for (const { path } of await store.documents(folder)) documents.push([path, text(await store.document(path))])
  }
  const journals = []
  for (const run of await store.runIds()) journals.push([run, text(await store.journal(run))])
  const signed = []
  for (const name of signedNames) signed.push(text(await store.signed(name)))
  return { documents, journals, signed, leaves: await store.leaves() }
}

/** A store whose calls fail from number `n` (1) on: before they did anything, or after they did all of it. */
function failing(store: Store, n: number, when: 'before' | 'after'): Store {
  let calls = 0
  const fail = (): never => {
    throw new StoreFailure({
      id: 'store-failed',
      file: '',
      what: 'The cable was pulled.',
      danger: '',
      mend: 'Plug it in.'
    })
  }
  return new Proxy(store, {
    get: (target, name) => {
      const member: unknown = Reflect.get(target, name)
      if (typeof member !== 'function') return member
      return async (...args: readonly unknown[]) => {
        calls += 1
        if (calls >= n && when === 'before') fail()
        const value: unknown = await Reflect.apply(member, target, args)
        if (calls >= n) fail()
        return value
      }
    }
  })
}

describe('a sync', () => {
  it('brings everything there, open runs too, and the second time nothing', async () => {
    const to = memoryStore()
    const first = await syncSite(site, to)
    expect(first).toMatchObject({
      signed: { 'people.yaml': 'sent', 'instruments.yaml': 'none' },
      documents: { sent: 4, same: 0, refused: 0 },
      runs: { sent: 3, same: 0, refused: 0 },
      lines: closed.length + longer.length + open.length,
      open: 1,
      leaves: { sent: 2, same: 0, refused: 0 },
      findings: [],
      notes: [],
      stopped: null
    })
    const content = await contentOf(to)
    expect(content).toEqual(await contentOf(folderStore(site)))
    expect(await to.leaves()).toEqual([sampleLeaf(closed), sampleLeaf(longer)])
    const second = await syncSite(site, to)
    expect(second).toMatchObject({
      signed: { 'people.yaml': 'same' },
      documents: { sent: 0, same: 4 },
      runs: { sent: 0, same: 3 },
      lines: 0,
      leaves: { sent: 0, same: 2 },
      findings: [],
      stopped: null
    })
    expect(await contentOf(to)).toEqual(content)
  })

  it('goes on with what came in since', async () => {
    const to = memoryStore()
    await syncSite(site, to)
    appendFileSync(
      layout.journal(site, 'c'),
      fileOf(sampleLines({ run: 'c', events: [hung('Q1', '17'), finished] }).slice(2))
    )
    expect(await syncSite(site, to)).toMatchObject({
      runs: { sent: 1, same: 2 },
      lines: 1,
      open: 0,
      leaves: { sent: 1, same: 2 },
      findings: []
    })
    expect(await contentOf(to)).toEqual(await contentOf(folderStore(site)))
  })

  it.each(['before', 'after'] as const)('can fail %s any call, and goes on at the next', async (when) => {
    const expected = await contentOf(folderStore(site))
    let cut = 0
    for (let n = 1; ; n += 1) {
      const to = memoryStore()
      const first = await syncSite(site, failing(to, n, when))
      // A reader in between never sees a leaf without its whole journal, or half of a document.
      for (const leaf of await to.leaves()) {
        const { run, entries, head } = JSON.parse(leaf) as { run: string; entries: number; head: string }
        const lines = Buffer.from((await to.journal(run)) ?? [])
          .toString()
          .split('\n')
        expect(sha256Hex(lines[entries - 1] ?? '')).toBe(head)
      }
      if (first.stopped === null) break
      cut += 1
      expect(first.stopped.what).toBe('The cable was pulled.')
      expect(await syncSite(site, to)).toMatchObject({ findings: [], stopped: null })
      expect(await contentOf(to)).toEqual(expected)
    }
    expect(cut).toBeGreaterThan(15)
  })

  it('makes progress through a store that fails at every third call', async () => {
    const to = memoryStore()
    let rounds = 0
    for (let stopped = true; stopped; rounds += 1) {
      // Each round gets a few calls further than what stands already needs.
      stopped = (await syncSite(site, failing(to, 14 + 3 * rounds, 'after'))).stopped !== null
    }
    expect(rounds).toBeGreaterThan(1)
    expect(await contentOf(to)).toEqual(await contentOf(folderStore(site)))
  })

  it('never sends a torn last line, and says that it left it out', async () => {
    const torn = sampleLines({ run: 'c', events: [hung('Q1', '17'), note('half')] })[2] ?? ''
    for (const rest of [torn.slice(0, 40), `${torn.slice(0, 40)}\n`, torn]) {
      writeFileSync(layout.journal(site, 'c'), Buffer.concat([fileOf(open), Buffer.from(rest)]))
      const to = memoryStore()
      const report = await syncSite(site, to)
      expect(report).toMatchObject({ runs: { sent: 3, refused: 0 }, findings: [], stopped: null })
      expect(report.notes).toEqual(['runs/c.jsonl: the torn line at its end was left out; it was never acknowledged.'])
      expect(Buffer.from((await to.journal('c')) ?? [])).toEqual(fileOf(open))
      expect(readFileSync(layout.journal(site, 'c'))).toEqual(Buffer.concat([fileOf(open), Buffer.from(rest)]))
    }
  })

  it('sends a damaged journal up to the damage, tells it, and holds back its leaf', async () => {
    const damaged = fileOf(longer).toString().replace('"text":"3"', '"text":"4"')
    writeFileSync(layout.journal(site, 'b'), damaged)
    const to = memoryStore()
    const report = await syncSite(site, to)
    expect(report).toMatchObject({ runs: { sent: 2, refused: 1 }, leaves: { sent: 1, refused: 1 }, stopped: null })
    expect(report.findings.map(({ id, file, line }) => [id, file, line])).toEqual([['chain-broken', 'runs/b.jsonl', 5]])
    expect(Buffer.from((await to.journal('b')) ?? [])).toEqual(fileOf(longer.slice(0, 4)))
  })

  it('refuses a fork, names run, line and both hashes, and sends everything else', async () => {
    const to = memoryStore()
    const other = sampleLines({ run: 'a', events: [note('not x'), finished] })
    await to.append(runOf('a'), 1, other)
    const report = await syncSite(site, to)
    expect(report).toMatchObject({ runs: { sent: 2, refused: 1 }, leaves: { sent: 1, refused: 1 }, stopped: null })
    expect(report.findings).toHaveLength(1)
    expect(report.findings[0]).toMatchObject({ id: 'fork', file: 'runs/a.jsonl', line: 2 })
    expect(report.findings[0]?.what).toContain(sha256Hex(closed[1] ?? ''))
    expect(report.findings[0]?.what).toContain(sha256Hex(other[1] ?? ''))
    expect(Buffer.from((await to.journal('a')) ?? [])).toEqual(fileOf(other))
    expect(await to.leaves()).toEqual([sampleLeaf(longer)])
  })

  it('finds a fork behind what was sent before, wherever it begins', async () => {
    const to = memoryStore()
    await syncSite(site, to)
    for (let seq = 2; seq < longer.length; seq += 1) {
      const events = Array.from({ length: 8 }, (_, n) => note(n + 2 < seq ? `${n}` : `not ${n}`))
      writeFileSync(layout.journal(site, 'b'), fileOf(sampleLines({ run: 'b', events })))
      const { findings } = await syncSite(site, to)
      expect(findings[0]).toMatchObject({ id: 'fork', file: 'runs/b.jsonl', line: seq })
    }
  })

  it('says where the folder has less of a run than the shared store', async () => {
    const to = memoryStore()
    await syncSite(site, to)
    writeFileSync(layout.journal(site, 'c'), fileOf(open.slice(0, 1)))
    const { findings, runs } = await syncSite(site, to)
    expect(runs).toEqual({ sent: 0, same: 2, refused: 1 })
    expect(findings.map(({ id }) => id)).toEqual(['folder-behind'])
  })

  it('brings a roster with a higher number down, and only one of the same root key', async () => {
    const to = memoryStore()
    await to.supersede('people.yaml', sampleRoster(root, 7))
    expect(await syncSite(site, to)).toMatchObject({ signed: { 'people.yaml': 'brought' }, findings: [] })
    expect(readFileSync(layout.people(site))).toEqual(sampleRoster(root, 7))
    const strange = memoryStore()
    const theirs = sampleRoster(newRoot(), 9)
    await strange.supersede('people.yaml', theirs)
    const report = await syncSite(site, strange)
    expect(report).toMatchObject({ signed: { 'people.yaml': 'refused' }, findings: [{ id: 'roster-unsound' }] })
    expect(readFileSync(layout.people(site))).toEqual(sampleRoster(root, 7))
    expect(Buffer.from((await strange.signed('people.yaml')) ?? [])).toEqual(theirs)
  })

  it('reports two rosters of one number and replaces neither', async () => {
    const to = memoryStore()
    const theirs = sampleRoster(root, 3, 'Sandholm pumping station')
    await to.supersede('people.yaml', theirs)
    expect((await syncSite(site, to)).findings).toMatchObject([{ id: 'same-serial', file: 'people.yaml' }])
    expect(readFileSync(layout.people(site))).toEqual(sampleRoster(root, 3))
  })

  it('never sends a private key, a mark or a half-written file', async () => {
    for (const name of [
      'keys/site-root.key',
      'runs/a.jsonl.lock-1-ff',
      `attachments/${'0'.repeat(64)}.7.new`,
      'issued/x'
    ]) {
      writeDurably(join(site.folder, name), 'secret')
    }
    const to = memoryStore()
    const report = await syncSite(site, to)
    expect(report).toMatchObject({ documents: { sent: 4, refused: 0 }, findings: [] })
    expect(JSON.stringify(await contentOf(to))).not.toContain(Buffer.from('secret').toString('base64'))
  })

  it('tells an attachment that was altered', async () => {
    writeFileSync(join(site.folder, 'attachments', sha256Hex(photo)), 'another photo')
    const report = await syncSite(site, memoryStore())
    expect(report).toMatchObject({ documents: { sent: 3, refused: 1 }, findings: [{ id: 'document-altered' }] })
  })
})

describe('the log of a shared store', () => {
  it('is signed under a name of its own, and only as the continuation of what was signed', async () => {
    const to = memoryStore()
    await syncSite(site, to)
    const first = await signStoreLog(to, root)
    expect(first).toMatchObject({ ok: true, value: { size: 2 } })
    expect(first.ok && first.value.note.split('\n')[0]).toMatch(/^lockwright\/sandholm-waterworks\/.{43}\/store$/)
    appendFileSync(
      layout.journal(site, 'c'),
      fileOf(sampleLines({ run: 'c', events: [hung('Q1', '17'), finished] }).slice(2))
    )
    await syncSite(site, to)
    expect(await signStoreLog(to, root)).toMatchObject({ ok: true, value: { size: 3 } })
    expect(await signStoreLog(to, newRoot())).toMatchObject({ ok: false, faults: [{ id: 'not-the-root-key' }] })
    // A store whose leaves were put in another order since.
    const leaves = await to.leaves()
    const swapped = memoryStore()
    await syncSite(site, swapped)
    const turned: Store = { ...swapped, checkpoint: () => to.checkpoint(), tile: async () => Buffer.alloc(32 * 256) }
    expect(leaves).toHaveLength(3)
    expect(await signStoreLog(turned, root)).toMatchObject({ ok: false, faults: [{ id: 'log-forked' }] })
  })
})
