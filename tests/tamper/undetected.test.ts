import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import {
  audit,
  completeLog,
  type Entry,
  folderStore,
  memoryStore,
  type Site,
  signLog,
  thumbprint
} from '@lockwright/records'
import { describe, expect, it } from 'vitest'
import { forge } from '../../packages/records/fixtures/forge.js'
import { goldenSites } from '../../packages/records/fixtures/golden-sites.js'
import { keyOf, scriptedClock } from '../../packages/records/fixtures/plant.js'
import { logFolder } from '../../packages/records/src/log/log-folder.js'
import { publicBytesOf } from '../../packages/records/src/public-key.js'
import { formatRoster, parseRoster, type Roster } from '../../packages/records/src/roster.js'
import { layout } from '../../packages/records/src/site.js'
import { root } from '../house/sources.js'
import { inCopyOf } from './tampering.js'

const [first, second] = goldenSites
if (first === undefined || second === undefined) throw new Error('two golden sites are needed')
const evening = scriptedClock('2026-03-02T18:00:00.000Z')
const kept = readFileSync(logFolder.checkpoint(second.site), 'utf8')

interface Held {
  readonly checkpoint?: string
  readonly trusted?: string
}

/** What an audit tells of the records as a whole and of each run; nothing: the folder alone shows nothing. */
async function told(site: Site, held: Held = {}): Promise<readonly string[]> {
  const report = await audit({ store: folderStore(site), clock: evening, ...held })
  const general = report.general.filter(({ question }) => question === 'whole')
  return [...general, ...report.runs.flatMap(({ verdicts }) => verdicts)].flatMap(({ findings }) =>
    findings.map(({ id }) => id)
  )
}

function rosterOf(site: Site): Roster {
  const read = parseRoster(readFileSync(layout.people(site)), '')
  if (!read.ok) throw new Error(read.faults[0].what)
  return read.value
}

/** Whoever can write the folder makes its log anew from the journals that are there now. */
function makeLogAnew(site: Site, key: string | null): void {
  rmSync(logFolder.folder(site), { recursive: true, force: true })
  if (key === null) completeLog(site)
  else if (!signLog(site, keyOf(key)).ok) throw new Error('the log is not signed')
}

/** The keys that signed in the second golden site; Runa's is another after noon. */
const keyFor = (entry: Entry) =>
  entry.signature === undefined
    ? null
    : keyOf(entry.signature.by === 'runa' && entry.at >= '2026-03-02T12' ? 'runa, second key' : entry.signature.by)

interface Deed {
  /** As FORMAT.md has it, in the first column of its table. */
  readonly what: string
  readonly on: 1 | 2
  readonly does: (site: Site) => void
  /** What the folder alone shows: nothing, where this is empty. */
  readonly shows: readonly string[]
  /** What is told to whoever FORMAT.md names. */
  readonly finds: (site: Site) => Promise<readonly string[]>
}

const journal = (site: Site, run: string): string => readFileSync(layout.journal(site, run), 'utf8')
const cutBack = (site: Site, run: string, lines: number): void =>
  writeFileSync(
    layout.journal(site, run),
    journal(site, run)
      .split(/(?<=\n)/)
      .slice(0, lines)
      .join('')
  )
/** What a shared store says that has the journals as they were. */
async function toldByStore(site: Site, golden: Site, run: string): Promise<readonly string[]> {
  const store = memoryStore()
  await store.append(run as never, 1, journal(golden, run).split('\n').slice(0, -1))
  const handed = await store.append(run as never, 1, journal(site, run).split('\n').slice(0, -1))
  const head = (await store.heads([run])).get(run)
  if (handed.kind === 'fork') return ['fork']
  return head?.entries === journal(site, run).split('\n').length - 1 ? [] : ['store has more']
}

const deeds: readonly Deed[] = [
  {
    what: 'a journal cut back to an older end, at a line, and its leaf with it',
    on: 1,
    does: (site) => cutBack(site, 'golden', 13),
    shows: ['still-open', 'run-open'],
    finds: (site) => toldByStore(site, first.site, 'golden')
  },
  {
    what: 'a closed run removed or written anew, and the log made anew from what is left',
    on: 2,
    does: (site) => {
      rmSync(layout.journal(site, 'fan'))
      makeLogAnew(site, null)
    },
    shows: [],
    finds: (site) => told(site, { checkpoint: kept })
  },
  {
    what: 'the same, with the log signed anew by whoever has the root key',
    on: 2,
    does: (site) => {
      const changed = forge(
        journal(site, 'fan'),
        (entry) => (entry.event.kind === 'note' ? { ...entry, event: { kind: 'note', text: 'All well' } } : entry),
        keyFor
      )
      writeFileSync(layout.journal(site, 'fan'), changed)
      makeLogAnew(site, 'root')
    },
    shows: [],
    finds: (site) => told(site, { checkpoint: kept })
  },
  {
    what: 'an open run removed, or a rehearsal',
    on: 1,
    does: (site) => rmSync(layout.journal(site, 'golden')),
    shows: [],
    finds: async (site) => {
      const store = memoryStore()
      await store.append('golden' as never, 1, journal(first.site, 'golden').split('\n').slice(0, -1))
      return (await store.runIds()).filter((run) => !existsSync(layout.journal(site, run)))
    }
  },
  {
    what: 'entries after the last signature changed and chained anew',
    on: 1,
    does: (site) => {
      cutBack(site, 'golden', 20)
      const later = (entry: Entry): Entry => ({ ...entry, at: new Date(Date.parse(entry.at) + 60_000).toISOString() })
      const changed = forge(journal(site, 'golden'), (entry) => (entry.seq > 16 ? later(entry) : entry))
      writeFileSync(layout.journal(site, 'golden'), changed)
    },
    shows: ['unsigned-end', 'still-open', 'run-open'],
    finds: (site) => toldByStore(site, first.site, 'golden')
  },
  {
    what: 'a run continued in two ways, each signed, and one of them thrown away',
    on: 1,
    does: (site) => {
      const changed = forge(
        journal(site, 'golden'),
        (entry) => (entry.event.kind === 'note' ? { ...entry, event: { kind: 'note', text: 'All well' } } : entry),
        (entry) => (entry.signature === undefined ? null : keyOf(entry.signature.by))
      )
      writeFileSync(layout.journal(site, 'golden'), changed)
    },
    shows: [],
    finds: (site) => toldByStore(site, first.site, 'golden')
  },
  {
    what: 'the roster put back to an older one that the root key had signed, or the list of instruments',
    on: 2,
    does: (site) => {
      const roster = rosterOf(site)
      writeFileSync(layout.people(site), formatRoster({ ...roster, serial: roster.serial - 1 }, keyOf('root')))
    },
    shows: [],
    finds: async (site) => {
      const store = memoryStore()
      await store.supersede('people.yaml', readFileSync(layout.people(second.site)))
      return [(await store.supersede('people.yaml', readFileSync(layout.people(site)))).kind]
    }
  },
  {
    what: 'roster, root key and all replaced',
    on: 1,
    does: (site) => {
      const stranger = publicBytesOf(keyOf('stranger'))
      writeFileSync(layout.people(site), formatRoster({ ...rosterOf(site), root: stranger }, keyOf('stranger')))
    },
    shows: [],
    finds: (site) => told(site, { trusted: thumbprint(publicBytesOf(keyOf('root'))) })
  },
  {
    what: 'a signature dated back by someone who holds the key',
    on: 2,
    does: (site) => {
      // Runa's first key was exchanged at noon; the run is of two o'clock, and its clock says nine.
      const back = (at: string): string => new Date(Date.parse(at) - 4 * 3600_000).toISOString()
      const changed = forge(
        journal(site, 'stopped'),
        (entry) => ({
          ...entry,
          at: back(entry.at),
          ...(entry.signature === undefined ? {} : { signature: { ...entry.signature, at: back(entry.signature.at) } })
        }),
        (entry) => (entry.signature === undefined ? null : keyOf('runa'))
      )
      writeFileSync(layout.journal(site, 'stopped'), changed)
      makeLogAnew(site, null)
    },
    shows: [],
    finds: (site) => told(site, { checkpoint: kept })
  },
  {
    what: 'a clock that was wrong from the start of a run to its end',
    on: 1,
    does: (site) => {
      const later = (at: string): string => new Date(Date.parse(at) + 2 * 3600_000).toISOString()
      const changed = forge(
        journal(site, 'golden'),
        (entry) => ({
          ...entry,
          at: later(entry.at),
          ...(entry.signature === undefined ? {} : { signature: { ...entry.signature, at: later(entry.signature.at) } })
        }),
        (entry) => (entry.signature === undefined ? null : keyOf(entry.signature.by))
      )
      writeFileSync(layout.journal(site, 'golden'), changed)
    },
    shows: [],
    finds: async (site) => {
      // Whoever saw it begin at nine.
      const opened = (JSON.parse(journal(site, 'golden').split('\n')[0] ?? '') as Entry).at
      return opened.startsWith('2026-03-02T09') ? [] : ['not at nine']
    }
  },
  {
    what: 'an entry without a signature typed in the name of somebody else',
    on: 1,
    does: (site) => {
      const changed = forge(
        journal(site, 'golden'),
        (entry) => (entry.event.kind === 'note' ? { ...entry, by: 'runa' as Entry['by'] } : entry),
        (entry) => (entry.signature === undefined ? null : keyOf(entry.signature.by))
      )
      writeFileSync(layout.journal(site, 'golden'), changed)
    },
    shows: [],
    finds: async (site) => {
      // Whoever was there saw Odd write the note.
      const entries = journal(site, 'golden').trim().split('\n')
      const note = entries.map((line) => JSON.parse(line) as Entry).find(({ event }) => event.kind === 'note')
      return note?.by === 'odd' ? [] : ['not by Odd']
    }
  }
]

describe('what cannot be told from the folder alone', () => {
  it.each(deeds)('$what: shows $shows, and is told to whoever can know', async ({ on, does, shows, finds }) => {
    await inCopyOf(on === 1 ? first : second, async (site) => {
      const before = await told(site)
      does(site)
      expect((await told(site)).filter((id) => !before.includes(id))).toEqual(shows)
      expect((await finds(site)).length).toBeGreaterThan(0)
    })
  })

  it('stands in FORMAT.md, row for row, with who can tell', () => {
    const page = readFileSync(join(root, 'packages', 'records', 'FORMAT.md'), 'utf8')
    const rows = page
      .split('\n')
      .slice(page.split('\n').indexOf('| what was done | who can tell |') + 2)
      .map((line) => /^\| (.+) \| (.+) \|$/.exec(line))
    const table = rows.slice(0, rows.indexOf(null)).map((row) => [row?.[1] ?? '', row?.[2] ?? ''])
    expect(table.map(([what]) => what)).toEqual(deeds.map(({ what }) => what))
    for (const [, who] of table) expect(who?.length).toBeGreaterThan(20)
  })
})
