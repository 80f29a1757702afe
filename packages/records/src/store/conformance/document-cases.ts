import assert from 'node:assert/strict'
import { randomBytes } from 'node:crypto'
import { sha256Hex } from '../../digest.js'
import { newRoot, runOf, sampleLines, sampleRoster } from './sample-records.js'
import type { StoreCase } from './store-case.js'

const photo = Buffer.concat([Buffer.from([0, 255, 10, 13, 0]), randomBytes(70_000)])
const attachment = `attachments/${sha256Hex(photo)}`
const machine = Buffer.from('{"procedure":"F12-BEARING"}')
const issued = `issued/${sha256Hex(machine)}.json`
const signature = `issued/${sha256Hex(machine)}.jws`

/** What every store promises of documents that are written once, and of those that are signed anew with each change. */
export const documentCases: readonly StoreCase[] = [
  {
    promise: 'keeps a document byte for byte, and takes it twice as once',
    check: async ({ store, again }) => {
      assert.equal(await store.document(attachment), null)
      assert.deepEqual(await store.keep(attachment, photo), { kind: 'kept' })
      assert.deepEqual(await (await again()).keep(attachment, photo), { kind: 'same' })
      assert.deepEqual(Buffer.from((await store.document(attachment)) ?? []), photo)
      assert.deepEqual(await store.keep('runs/pump.torn-1', Buffer.alloc(0)), { kind: 'kept' })
      assert.deepEqual(Buffer.from((await store.document('runs/pump.torn-1')) ?? [1]), Buffer.alloc(0))
    }
  },
  {
    promise: 'lists the documents of a folder with their hashes, in the order of their paths',
    check: async ({ store }) => {
      await store.keep(signature, Buffer.from('one'))
      await store.keep(issued, machine)
      await store.keep(attachment, photo)
      assert.deepEqual(await store.documents('issued'), [
        { path: issued, sha256: sha256Hex(machine) },
        { path: signature, sha256: sha256Hex('one') }
      ])
      assert.deepEqual(await store.documents('attachments'), [{ path: attachment, sha256: sha256Hex(photo) }])
      assert.deepEqual(await store.documents('drafts'), [])
    }
  },
  {
    promise: 'never puts another document in the place of one',
    check: async ({ store, again }) => {
      await store.keep(signature, Buffer.from('one'))
      const refused = await (await again()).keep(signature, Buffer.from('two'))
      assert.deepEqual(refused.kind === 'conflict' && [refused.here, refused.offered], [
        sha256Hex('one'),
        sha256Hex('two')
      ])
      assert.equal(Buffer.from((await store.document(signature)) ?? []).toString(), 'one')
    }
  },
  {
    promise: 'gives one path to one of two writers at once',
    check: async ({ store, again }) => {
      const other = await again()
      const all = await Promise.allSettled([
        store.keep(signature, Buffer.from('one')),
        other.keep(signature, Buffer.from('two'))
      ])
      const kinds = all.map((one) => (one.status === 'fulfilled' ? one.value.kind : 'failed'))
      assert.equal(kinds.filter((kind) => kind === 'kept').length, 1, kinds.join())
      const text = Buffer.from((await store.document(signature)) ?? []).toString()
      assert.equal(text, kinds[0] === 'kept' ? 'one' : 'two')
    }
  },
  {
    promise: 'refuses bytes that are not those of their name, and paths that name nothing it keeps',
    check: async ({ store }) => {
      assert.equal((await store.keep(attachment, machine)).kind, 'refused')
      assert.equal((await store.keep(issued, photo)).kind, 'refused')
      for (const path of [
        '',
        'people.yaml',
        'keys/site-root.key',
        '../x.json',
        'issued/../people.yaml',
        `issued/${'0'.repeat(64)}.json.new`,
        'runs/pump.jsonl',
        'runs/pump.jsonl.lock-1-2',
        'sheets/.json',
        'sheets/a/b.json',
        'sheets/a\u0000.json',
        'attachments/x'
      ]) {
        assert.equal((await store.keep(path, photo)).kind, 'refused', path)
        assert.equal(await store.document(path), null, path)
      }
    }
  },
  {
    promise: 'knows which printed sheets are out, in whatever order things come in',
    check: async ({ store }) => {
      const [first, second, third] = ['000001-7K2-M4QX', '000002-AAA-AAAA', '000003-BBB-BBBB']
      await store.append(runOf('b'), 1, sampleLines({ run: 'b', sheet: 'BBB-BBBB' }))
      for (const name of [first, second, third]) await store.keep(`sheets/${name}.json`, Buffer.from('{}'))
      await store.keep('sheets/000005-CCC-CCCC.void.json', Buffer.from('{}'))
      await store.keep('sheets/000004-CCC-CCCC.json', Buffer.from('{}'))
      assert.deepEqual(await store.sheetsOut(), [`sheets/${first}.json`, `sheets/${second}.json`])
      await store.keep('sheets/000006-AAA-AAAA.void.json', Buffer.from('{}'))
      assert.deepEqual(await store.sheetsOut(), [`sheets/${first}.json`])
      await store.keep(`sheets/${first}.json`, Buffer.from('{}'))
      await store.append(runOf('a'), 1, sampleLines({ run: 'a', sheet: '7K2-M4QX' }))
      assert.equal((await store.runs()).runs.find(({ run }) => run === 'a')?.sheet, '7K2-M4QX')
      await store.keep(`sheets/${first}.json`, Buffer.from('{}'))
      assert.deepEqual(await store.sheetsOut(), [])
    }
  },
  {
    promise: 'lets a signed document with a higher number take the place of the one before, and no other',
    check: async ({ store, again }) => {
      const root = newRoot()
      const [first, second, fifth] = [1, 2, 5].map((serial) => sampleRoster(root, serial))
      if (first === undefined || second === undefined || fifth === undefined) throw new Error('no roster')
      assert.equal(await store.signed('people.yaml'), null)
      assert.deepEqual(await store.supersede('people.yaml', second), { kind: 'kept', serial: 2 })
      assert.deepEqual(await store.supersede('people.yaml', second), { kind: 'same', serial: 2 })
      assert.deepEqual(await (await again()).supersede('people.yaml', fifth), { kind: 'kept', serial: 5 })
      const older = await store.supersede('people.yaml', first)
      assert.deepEqual(older.kind === 'older' && [older.here, older.offered], [5, 1])
      assert.deepEqual(Buffer.from((await store.signed('people.yaml')) ?? []), fifth)
    }
  },
  {
    promise: 'refuses two signed documents of one number, with both hashes',
    check: async ({ store }) => {
      const root = newRoot()
      const [one, other] = [sampleRoster(root, 3), sampleRoster(root, 3, 'Sandholm pumping station')]
      await store.supersede('people.yaml', one)
      const refused = await store.supersede('people.yaml', other)
      assert.deepEqual(refused.kind === 'conflict' && [refused.here, refused.offered], [
        sha256Hex(one),
        sha256Hex(other)
      ])
      assert.deepEqual(Buffer.from((await store.signed('people.yaml')) ?? []), one)
    }
  },
  {
    promise: 'refuses a signed document that is not signed, or by another root key',
    check: async ({ store }) => {
      const root = newRoot()
      const forged = Buffer.from(sampleRoster(root, 9).toString().replace('serial: 9', 'serial: 10'))
      assert.equal((await store.supersede('people.yaml', forged)).kind, 'refused')
      assert.equal((await store.supersede('people.yaml', Buffer.from('serial: 1\n'))).kind, 'refused')
      await store.supersede('people.yaml', sampleRoster(root, 1))
      assert.equal((await store.supersede('people.yaml', sampleRoster(newRoot(), 2))).kind, 'refused')
      assert.equal((await store.supersede('people.yaml', forged)).kind, 'refused')
      assert.deepEqual(Buffer.from((await store.signed('people.yaml')) ?? []), sampleRoster(root, 1))
    }
  },
  {
    promise: 'refuses instruments before there is a roster',
    check: async ({ store }) => {
      assert.equal((await store.supersede('instruments.yaml', sampleRoster(newRoot(), 1))).kind, 'refused')
      assert.equal(await store.signed('instruments.yaml'), null)
    }
  }
]
