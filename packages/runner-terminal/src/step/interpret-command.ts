import type { HungLock, LockId, PersonId } from '@lockwright/machine'
import { helpPage } from '../pages/help-page.js'
import { recordPage } from '../pages/record-page.js'
import { standPage } from '../pages/stand-page.js'
import { wholePage } from '../pages/whole-page.js'
import { whyPage } from '../pages/why-page.js'
import { askAbsentOwner } from './absent-owner.js'
import { deviate } from './deviate.js'
import { type Interpreted, refuse, type Sitting } from './interpreted.js'

/** The words that begin a command. */
export const commandWords: readonly string[] = [
  'help',
  '?',
  'why',
  'whole',
  'sources',
  'record',
  'leave',
  'note',
  'stop',
  'pause',
  'deviate',
  'absent',
  'attach',
  'join',
  'left',
  'as',
  'handover'
]

/** What can be typed at every step; undefined where the line is none of it. */
export function interpretCommand(line: string, sitting: Sitting): Interpreted | undefined {
  const [, word = '', rest = ''] = /^(\S+) ?(.*)$/.exec(line) ?? []
  const { machine, snapshot, entries, desk, person } = sitting
  const closed = snapshot.status === 'stopped' || snapshot.status === 'finished'
  switch (word.toLowerCase()) {
    case 'help':
    case '?':
      return rest === '' ? { kind: 'page', page: helpPage } : undefined
    case 'why':
      return rest === '' ? { kind: 'page', page: whyPage(machine, snapshot) } : undefined
    case 'whole':
      return { kind: 'page', page: wholePage(machine, snapshot, rest) }
    case 'sources':
      return rest === '' ? { kind: 'page', page: standPage(machine, snapshot, entries) } : undefined
    case 'record':
      return rest === '' ? { kind: 'page', page: recordPage(machine, entries) } : undefined
    case 'leave':
      return rest === '' ? { kind: 'leave' } : undefined
  }
  if (closed) return undefined
  const asking = (kind: 'stop-reason' | 'pause-reason' | 'note' | 'deviation-reason'): Interpreted => ({
    kind: 'desk',
    desk: { ...desk, question: { kind } }
  })
  switch (word.toLowerCase()) {
    case 'note':
      return rest === '' ? asking('note') : record({ kind: 'note', text: rest, by: person })
    case 'stop':
      return rest === '' ? asking('stop-reason') : record({ kind: 'stopped', reason: rest, by: person })
    case 'pause':
      return rest === '' ? asking('pause-reason') : record({ kind: 'paused', reason: rest, by: person })
    case 'deviate':
      return rest === '' ? asking('deviation-reason') : deviate(rest, sitting)
    case 'absent':
      return rest === '' ? askAbsentOwner(sitting) : undefined
    case 'attach':
      return rest === ''
        ? refuse('It is not said which file.', 'Type `attach PATH`, such as `attach photos/seal.jpg`.')
        : { kind: 'attach', path: rest.replace(/^(['"])(.+)\1$/, '$2') }
    case 'join':
      return join(rest, sitting)
    case 'left':
      return named(word, rest, (id) => record({ kind: 'left', by: id }))
    case 'as':
      return named(word, rest, (id) => ({ kind: 'person', person: id }))
    case 'handover':
      return handOver(rest, sitting)
    default:
      return undefined
  }
}

function record(event: Extract<Interpreted, { readonly kind: 'event' }>['event']): Interpreted {
  return { kind: 'event', event, last: null, signer: null }
}

function named(word: string, rest: string, make: (person: PersonId) => Interpreted): Interpreted {
  return /^\S+$/.test(rest)
    ? make(rest as PersonId)
    : refuse('It is not said who.', `Type \`${word} PERSON\` with the id that the roster has.`)
}

/** `PERSON Q1=31 Q2=32`: whoever works under the lockout hangs a lock of their own on each point first. */
function join(rest: string, { machine }: Sitting): Interpreted {
  const read = readPersonAndLocks(
    rest,
    machine.points.map(({ id }) => id)
  )
  return read === undefined
    ? refuse(
        'It is not said who joins with which locks.',
        'Type `join PERSON Q1=31 Q2=32`, with the number of a lock for each locked point.'
      )
    : record({ kind: 'joined', locks: read.locks, by: read.person })
}

function handOver(rest: string, { machine, person }: Sitting): Interpreted {
  const read = readPersonAndLocks(
    rest,
    machine.points.map(({ id }) => id)
  )
  return read === undefined
    ? refuse(
        'It is not said who takes over with which locks.',
        'Type `handover PERSON Q1=31 Q2=32`, with the number of the incoming lock for each locked point.'
      )
    : record({ kind: 'handed-over', to: read.person, locks: read.locks, by: person })
}

function readPersonAndLocks(
  rest: string,
  points: readonly HungLock['point'][]
): { readonly person: PersonId; readonly locks: readonly HungLock[] } | undefined {
  const [person = '', ...pairs] = rest.split(' ')
  if (person === '' || person.includes('=')) return undefined
  const locks = pairs.map((pair): HungLock | undefined => {
    const [name = '', lock = ''] = pair.split('=')
    const point = points.find((id) => id === name)
    return point === undefined || lock === '' ? undefined : { point, lock: lock as LockId }
  })
  const whole = locks.filter((lock) => lock !== undefined)
  return whole.length === locks.length ? { person: person as PersonId, locks: whole } : undefined
}
