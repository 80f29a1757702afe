import type { PersonId } from '@lockwright/machine'
import { helpPage } from '../pages/help-page.js'
import { recordPage } from '../pages/record-page.js'
import { standPage } from '../pages/stand-page.js'
import { wholePage } from '../pages/whole-page.js'
import { whyPage } from '../pages/why-page.js'
import { askAbsentOwner } from './absent-owner.js'
import { askedNext } from './asked.js'
import { atTheKeys } from './at-the-keys.js'
import { come } from './crew-locks.js'
import { deviate } from './deviate.js'
import { type Interpreted, refuse, type Sitting } from './interpreted.js'
import { absentElsewhere, takeOffElsewhere } from './lock-elsewhere.js'
import { askFound, askMissing } from './missing-lock.js'
import { changeInstrument } from './with-instrument.js'

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
  'handover',
  'skip',
  'with'
]

/** Commands that count on the locks being where the record has them. */
const relyOnLocks: readonly string[] = ['join', 'left', 'handover', 'deviate']

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
  if (desk.takenUp && relyOnLocks.includes(word.toLowerCase())) {
    return refuse(
      'Nobody has looked at the locks since the run was taken up.',
      'Look at them first, and say whether they hang.'
    )
  }
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
      if (rest !== '') return sitting.elsewhere.length > 0 ? absentElsewhere(rest, sitting) : undefined
      return askAbsentOwner(sitting)
    case 'attach':
      return rest === ''
        ? refuse('It is not said which file.', 'Type `attach PATH`, such as `attach photos/seal.jpg`.')
        : { kind: 'attach', path: rest.replace(/^(['"])(.+)\1$/, '$2') }
    case 'join':
      return come('joins', rest, sitting)
    case 'left':
      return named(word, rest, (id) => record({ kind: 'left', by: id }))
    case 'as':
      return atTheKeys(rest, sitting)
    case 'missing': {
      // A word that can be an answer to the step is one.
      const answers = askedNext(machine, snapshot, desk).kind
      const asks = rest === '' && snapshot.locks.length > 0 && answers !== 'choose' && answers !== 'resume'
      return asks ? askMissing(sitting) : undefined
    }
    case 'off':
      return rest === '' || sitting.elsewhere.length === 0 ? undefined : takeOffElsewhere(rest, sitting)
    case 'found':
      return snapshot.status === 'paused' || desk.takenUp ? askFound(rest, sitting) : undefined
    case 'with':
      return changeInstrument(rest, sitting)
    case 'skip':
      return sitting.skips && rest === '' ? { kind: 'skip' } : undefined
    case 'handover':
      return come('takes over', rest, sitting)
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
