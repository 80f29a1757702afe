import type { EventKind } from '@lockwright/machine'
import { readCanonical } from './canonical-json.js'
import { digestPattern } from './digest.js'
import type { Entry } from './entry.js'
import {
  instant,
  integer,
  list,
  matching,
  nullOr,
  number,
  oneOf,
  optional,
  record,
  type Shape,
  text,
  truth,
  word
} from './shape.js'

/** Longest line of a journal, in UTF-16 code units. */
const longestLine = 262_144

const runPattern = /^[a-z0-9][a-z0-9-]{0,79}$/
export const runId = matching(runPattern, 'a run id')

const ticks = { acknowledged: list(word), boxes: list(word) }
const locks = list(record({ point: word, lock: word }))

/** What each kind of event carries, besides `kind`. One place for writing and for reading. */
const carried: Readonly<Record<EventKind, Readonly<Record<string, Shape>>>> = {
  opened: {
    mode: oneOf('issued', 'draft', 'rehearsal'),
    onPaper: optional(record({ enteredBy: word, sheet: optional(word) }))
  },
  done: { state: word, ...ticks },
  reading: { state: word, input: word, value: number, typed: text, instrument: optional(word) },
  choice: { state: word, answer: word, ...ticks },
  'wait-started': { state: word, input: word },
  'wait-over': { state: word, input: word },
  'lock-hung': { state: word, point: word, lock: word },
  'lock-removed': {
    state: word,
    point: word,
    owner: word,
    absent: optional(
      record({ verifiedAway: word, triedToReach: word, toldBeforeReturn: word, directedBy: optional(word) })
    ),
    from: optional(record({ run: runId, lock: word }))
  },
  signed: { state: word, role: word, meaning: word, ...ticks },
  late: { state: word },
  joined: { locks },
  left: {},
  'handed-over': { to: word, locks },
  note: { text },
  attachment: { name: word, sha256: matching(digestPattern, 'a SHA-256 digest') },
  deviation: { state: word, reason: word, role: word },
  paused: { reason: text },
  resumed: { locksOn: truth },
  'proven-again': { source: word, value: nullOr(number), typed: text, instrument: optional(word) },
  stopped: { reason: text, left: optional(text) },
  finished: { state: word, ...ticks }
}

const shapes = new Map(
  Object.entries(carried).map(([kind, members]) => [
    kind,
    record({ kind: (value) => (value === kind ? null : 'is another'), ...members })
  ])
)

/** What is wrong with an event as data; null: it may be written. */
export const eventFault: Shape = (value) => {
  const kind = typeof value === 'object' && value !== null ? (value as { readonly kind?: unknown }).kind : undefined
  const shape = typeof kind === 'string' ? shapes.get(kind) : undefined
  return shape === undefined ? 'is of no known kind' : shape(value)
}

const digest = matching(digestPattern, 'a SHA-256 digest')

const entryShape = record({
  run: runId,
  seq: integer(1),
  prev: digest,
  at: instant,
  elapsed: integer(0),
  session: integer(1),
  by: word,
  state: word,
  event: eventFault,
  opens: optional(
    record({
      format: oneOf('lockwright-journal/1'),
      machine: digest,
      procedure: word,
      revision: integer(0),
      equipment: text
    })
  ),
  entered: optional(record({ at: instant, by: word })),
  signature: optional(record({ by: word, name: word, at: instant, meaning: word })),
  jws: optional(word)
})

/** The entry of one line; else why it is none. */
export function parseEntry(line: string): { readonly entry: Entry } | { readonly fault: string } {
  if (line.length > longestLine) return { fault: `it is longer than ${longestLine} characters` }
  const read = readCanonical(line)
  if ('fault' in read) return read
  const fault = entryShape(read.value)
  return fault === null ? { entry: read.value as Entry } : { fault: `it ${fault}` }
}
