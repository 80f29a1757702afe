import assert from 'node:assert/strict'
import { sha256Hex } from '../../digest.js'
import {
  fileOf,
  finished,
  handedOver,
  hung,
  joined,
  left,
  note,
  paused,
  removed,
  resumed,
  runOf,
  sampleLines,
  stopped
} from './sample-records.js'
import type { StoreCase } from './store-case.js'

const pump = runOf('pump')
const three = sampleLines({ events: [note('the first'), finished] })

/** What every store promises of journals. */
export const runCases: readonly StoreCase[] = [
  {
    promise: 'has nothing at first',
    check: async ({ store }) => {
      assert.deepEqual(await store.runs(), { runs: [], faults: [] })
      assert.deepEqual(await store.runIds(), [])
      assert.equal(await store.journal('pump'), null)
      assert.equal((await store.heads(['pump'])).size, 0)
    }
  },
  {
    promise: 'gives a journal back byte for byte, however it came in',
    check: async ({ store, again }) => {
      assert.deepEqual(await store.append(pump, 1, three.slice(0, 2)), { kind: 'appended', added: 2, entries: 2 })
      assert.deepEqual(await store.append(pump, 3, three.slice(2)), { kind: 'appended', added: 1, entries: 3 })
      assert.deepEqual(Buffer.from((await (await again()).journal('pump')) ?? []), fileOf(three))
      assert.deepEqual(await store.runIds(), ['pump'])
    }
  },
  {
    promise: 'passes over what stands already, whole or in part',
    check: async ({ store }) => {
      await store.append(pump, 1, three.slice(0, 2))
      assert.deepEqual(await store.append(pump, 1, three.slice(0, 2)), { kind: 'appended', added: 0, entries: 2 })
      assert.deepEqual(await store.append(pump, 2, three.slice(1)), { kind: 'appended', added: 1, entries: 3 })
      assert.deepEqual(await store.append(pump, 1, three), { kind: 'appended', added: 0, entries: 3 })
      assert.deepEqual(await store.append(pump, 1, three.slice(0, 1)), { kind: 'appended', added: 0, entries: 3 })
      assert.deepEqual(Buffer.from((await store.journal('pump')) ?? []), fileOf(three))
    }
  },
  {
    promise: 'refuses a fork with both hashes, and changes nothing',
    check: async ({ store }) => {
      await store.append(pump, 1, three)
      const other = sampleLines({ events: [note('another'), finished] })
      for (const [from, lines] of [
        [1, other],
        [2, other.slice(1)],
        [2, other.slice(1, 2)]
      ] as const) {
        const refused = await store.append(pump, from, lines)
        assert.equal(refused.kind, 'fork')
        assert.deepEqual(refused.kind === 'fork' && [refused.run, refused.seq, refused.here, refused.offered], [
          'pump',
          2,
          sha256Hex(three[1] ?? ''),
          sha256Hex(other[1] ?? '')
        ])
      }
      assert.deepEqual(Buffer.from((await store.journal('pump')) ?? []), fileOf(three))
    }
  },
  {
    promise: 'refuses a fork behind lines that agree, and takes none of what follows',
    check: async ({ store }) => {
      await store.append(pump, 1, three.slice(0, 2))
      const longer = [...three.slice(0, 1), ...sampleLines({ events: [note('x'), note('y'), finished] }).slice(1)]
      assert.equal((await store.append(pump, 1, longer)).kind, 'fork')
      assert.equal((await store.heads(['pump'])).get('pump')?.entries, 2)
    }
  },
  {
    promise: 'refuses a gap',
    check: async ({ store }) => {
      const refused = await store.append(pump, 2, three.slice(1))
      assert.deepEqual(refused.kind === 'gap' && refused.expected, 1)
      await store.append(pump, 1, three.slice(0, 1))
      const second = await store.append(pump, 3, three.slice(2))
      assert.deepEqual(second.kind === 'gap' && second.expected, 2)
      assert.equal((await store.heads(['pump'])).get('pump')?.entries, 1)
    }
  },
  {
    promise: 'refuses what is no entry of the run at that place, and all that came with it',
    check: async ({ store }) => {
      const [first = '', second = '', third = ''] = three
      const others = sampleLines({ run: 'fan', events: [note('the first')] })
      for (const lines of [
        ['not an entry'],
        [''],
        [` ${first}`],
        [`${first}\n`],
        [first.replace('"seq":1', '"seq":2')],
        [first, second.replace('"seq":2', '"seq":3')],
        [first, second.replace('the first', 'the First'), third],
        [first, third.replace('"seq":3', '"seq":2')],
        [first, first.replace('"seq":1', '"seq":2')],
        [first, others[1] ?? ''],
        others
      ]) {
        assert.equal((await store.append(pump, 1, lines)).kind, 'refused', JSON.stringify(lines))
      }
      for (const [run, from] of [
        ['', 1],
        ['../pump', 1],
        ['Pump', 1],
        ['pump', 0],
        ['pump', 1.5]
      ] as const) {
        assert.equal((await store.append(runOf(run), from, three)).kind, 'refused', run)
      }
      assert.deepEqual(await store.runIds(), [])
    }
  },
  {
    promise: 'keeps two writers of one run from mixing: one of two different next lines is a fork',
    check: async ({ store, again }) => {
      const other = await again()
      await store.append(pump, 1, three.slice(0, 1))
      const [mine, theirs] = ['mine', 'theirs'].map((text) => sampleLines({ events: [note(text)] }).slice(1))
      const all = await Promise.allSettled([store.append(pump, 2, mine ?? []), other.append(pump, 2, theirs ?? [])])
      const kinds = all.map((one) => (one.status === 'fulfilled' ? one.value.kind : 'failed'))
      // A folder that someone writes into may also ask to try again.
      assert.equal(kinds.filter((kind) => kind === 'appended').length, 1, kinds.join())
      const standing = (await store.journal('pump')) ?? []
      const winner = kinds[0] === 'appended' ? mine : theirs
      assert.deepEqual(Buffer.from(standing), fileOf([three[0] ?? '', winner?.[0] ?? '']))
      const loser = kinds[0] === 'appended' ? theirs : mine
      assert.equal((await other.append(pump, 2, loser ?? [])).kind, 'fork')
    }
  },
  {
    promise: 'takes the same lines from two writers at once as one',
    check: async ({ store, again }) => {
      const other = await again()
      await Promise.allSettled([store.append(pump, 1, three), other.append(pump, 1, three)])
      assert.deepEqual(await store.append(pump, 1, three), { kind: 'appended', added: 0, entries: 3 })
      assert.deepEqual(Buffer.from((await store.journal('pump')) ?? []), fileOf(three))
    }
  },
  {
    promise: 'lists runs with their standing, the latest opened first',
    check: async ({ store }) => {
      const lines = {
        a: sampleLines({ run: 'a', events: [note('x'), paused] }),
        b: sampleLines({ run: 'b', events: [paused, resumed], openedAt: '2026-03-03T09:00:00.000Z' }),
        c: sampleLines({ run: 'c', events: [stopped] }),
        d: sampleLines({ run: 'd', mode: 'rehearsal', events: [hung('Q1', '17'), finished] })
      }
      for (const [run, one] of Object.entries(lines)) await store.append(runOf(run), 1, one)
      const { runs, faults } = await store.runs()
      assert.deepEqual(faults, [])
      assert.deepEqual(
        runs.map(({ run, status, entries, head }) => [run, status, entries, head]),
        (['b', 'a', 'c', 'd'] as const).map((run, index) => [
          run,
          ['running', 'paused', 'stopped', 'finished'][index],
          lines[run].length,
          sha256Hex(lines[run].at(-1) ?? '')
        ])
      )
      assert.deepEqual(runs[3], {
        run: 'd',
        file: 'runs/d.jsonl',
        mode: 'rehearsal',
        onPaper: false,
        sheet: null,
        machine: sha256Hex('machine of F12-BEARING'),
        procedure: 'F12-BEARING',
        revision: 2,
        equipment: 'F-12',
        openedAt: '2026-03-02T09:00:00.000Z',
        openedBy: 'odd',
        lastAt: '2026-03-02T09:02:00.000Z',
        entries: 3,
        status: 'finished',
        head: sha256Hex(lines.d.at(-1) ?? ''),
        locks: []
      })
      const heads = await store.heads(['a', 'none', 'c'])
      assert.deepEqual([...heads].sort(), [
        ['a', { entries: 3, hash: sha256Hex(lines.a.at(-1) ?? '') }],
        ['c', { entries: 2, hash: sha256Hex(lines.c.at(-1) ?? '') }]
      ])
    }
  },
  {
    promise: 'finds runs by what they are asked for',
    check: async ({ store }) => {
      const samples = [
        { run: 'a', equipment: 'P-202', procedure: 'P202', events: [note('x', 'runa'), finished] },
        { run: 'b', by: 'liv', openedAt: '2026-04-01T00:00:00.000Z', events: [{ ...note('y'), signedBy: 'runa' }] },
        { run: 'c', equipment: 'P-202', openedAt: '2026-05-01T00:00:00.000Z', events: [hung('Q1', '17'), paused] },
        { run: 'd', events: [hung('Q1', '18'), removed('Q1', 'odd'), stopped] }
      ]
      for (const sample of samples) await store.append(runOf(sample.run), 1, sampleLines(sample))
      const asked = async (which: Parameters<typeof store.runs>[0]) =>
        (await store.runs(which)).runs.map(({ run }) => run).join('')
      assert.equal(await asked({}), 'cbad')
      assert.equal(await asked({ open: true }), 'cb')
      assert.equal(await asked({ open: false }), 'ad')
      assert.equal(await asked({ hanging: true }), 'c')
      assert.equal(await asked({ equipment: 'P-202' }), 'ca')
      assert.equal(await asked({ procedure: 'P202' }), 'a')
      assert.equal(await asked({ person: 'runa' }), 'ba')
      assert.equal(await asked({ person: 'liv' }), 'b')
      assert.equal(await asked({ person: 'nobody' }), '')
      assert.equal(await asked({ since: '2026-04-01T00:01:00.000Z' }), 'cb')
      assert.equal(await asked({ since: '2026-04-01T00:01:00.001Z' }), 'c')
      assert.equal(await asked({ since: '2026-04-01T02:00:30.000+02:00' }), 'cb')
      assert.equal(await asked({ open: true, equipment: 'P-202', person: 'odd' }), 'c')
    }
  },
  {
    promise: 'knows which locks hang, whose, and since when',
    check: async ({ store }) => {
      const events = [
        hung('Q1', '17'),
        hung('V2', '18'),
        joined('runa', ['Q1', '21'], ['V2', '22']),
        removed('V2', 'odd'),
        handedOver('runa', 'liv', ['Q1', '31'], ['V2', '32']),
        joined('tor', ['Q1', '41']),
        left('tor')
      ]
      await store.append(pump, 1, sampleLines({ events }))
      const { runs } = await store.runs({ hanging: true })
      assert.deepEqual(runs[0]?.locks, [
        { point: 'Q1', lock: '17', person: 'odd', since: '2026-03-02T09:01:00.000Z' },
        { point: 'Q1', lock: '31', person: 'liv', since: '2026-03-02T09:05:00.000Z' },
        { point: 'V2', lock: '32', person: 'liv', since: '2026-03-02T09:05:00.000Z' }
      ])
    }
  }
]
