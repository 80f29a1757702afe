import assert from 'node:assert/strict'
import { fileOf, finished, hung, note, runOf, type SampleEvent, sampleLines } from './sample-records.js'
import type { StoreCase } from './store-case.js'

const pump = runOf('pump')

const texts: readonly string[] = [
  'ü é ß Ж 漢字 👷🏽‍♀️ e\u0301',
  'a\u0000b',
  '\u0001\u0008\u001b[2J\u007f\u009b\u202e\u2028\ufeff',
  '\\u0000 \\\\u0000 "\\"',
  "'; DROP TABLE entries; --",
  '\ufffd\uffff\u{10ffff}',
  '%s $1 \\x00 {"a":1}',
  '\r\n\t'
]

/** Content that someone chose in order to break a store. It comes back exactly as it was. */
export const hostileCases: readonly StoreCase[] = [
  {
    promise: 'gives back every character that an entry can hold, NUL and controls too',
    check: async ({ store }) => {
      const lines = sampleLines({ events: [...texts.map((text) => note(text)), finished] })
      assert.equal((await store.append(pump, 1, lines)).kind, 'appended')
      assert.deepEqual(Buffer.from((await store.journal('pump')) ?? []), fileOf(lines))
      assert.equal((await store.runs()).runs[0]?.status, 'finished')
    }
  },
  {
    promise: 'lists runs whose names of people and equipment are hostile',
    check: async ({ store }) => {
      for (const [index, text] of texts.entries()) {
        const lines = sampleLines({
          run: `h${index}`,
          by: text,
          equipment: text,
          procedure: text,
          events: [hung(text, text)]
        })
        assert.equal((await store.append(runOf(`h${index}`), 1, lines)).kind, 'appended', JSON.stringify(text))
        for (const which of [{ person: text }, { equipment: text }, { procedure: text }]) {
          const { runs } = await store.runs(which)
          assert.deepEqual(
            runs.map(({ run, equipment, openedBy, locks }) => [run, equipment, openedBy, locks[0]?.lock]),
            [[`h${index}`, text, text, text]],
            JSON.stringify(text)
          )
        }
      }
    }
  },
  {
    promise: 'takes a line of 262,144 characters, and refuses one of one more',
    check: async ({ store }) => {
      // In several boxes: the longest text in an entry is 65,536.
      const lineOf = (length: number) => sampleLines({ events: [padded(length)] })
      const around = 261_000
      const exact = around + 262_144 - (lineOf(around)[1]?.length ?? 0)
      assert.equal(lineOf(exact)[1]?.length, 262_144)
      assert.equal((await store.append(pump, 1, lineOf(exact + 1))).kind, 'refused')
      assert.equal((await store.append(pump, 1, lineOf(exact))).kind, 'appended')
      assert.deepEqual(Buffer.from((await store.journal('pump')) ?? []), fileOf(lineOf(exact)))
    }
  },
  {
    promise: 'takes times at the ends of what can be written down',
    check: async ({ store }) => {
      for (const [index, at] of [
        '0001-01-01T00:00:00.000Z',
        '9998-12-31T23:59:59.999Z',
        '0000-02-29T00:00:00.000Z'
      ].entries()) {
        const run = runOf(`t${index}`)
        assert.equal((await store.append(run, 1, sampleLines({ run, openedAt: at }))).kind, 'appended', at)
      }
      assert.deepEqual(
        (await store.runs()).runs.map(({ run }) => run),
        ['t1', 't0', 't2']
      )
    }
  },
  {
    promise: 'refuses half a character',
    check: async ({ store }) => {
      const [first = '', second = ''] = sampleLines({ events: [note('half')] })
      for (const bad of [second.replace('half', '\ud800'), second.replace('half', '\\ud800')]) {
        assert.equal((await store.append(pump, 1, [first, bad])).kind, 'refused')
      }
      assert.equal(await store.journal('pump'), null)
    }
  },
  {
    promise: 'is asked for runs by names that name none',
    check: async ({ store }) => {
      for (const run of ['../people', 'a/b', '', 'a\u0000', 'PUMP', '*', '%']) {
        assert.equal(await store.journal(run), null)
        assert.equal((await store.heads([run])).size, 0)
      }
    }
  }
]

/** An event about as long as that: long texts in as many boxes as it takes. */
function padded(length: number): SampleEvent {
  const boxes: string[] = []
  for (let rest = length; rest > 0; rest -= 65_539) boxes.push('x'.repeat(Math.max(1, Math.min(65_536, rest - 3))))
  return { kind: 'done', state: 'tell', acknowledged: [], boxes }
}
