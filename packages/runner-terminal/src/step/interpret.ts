import { type LockId, type PersonId, stateOf } from '@lockwright/machine'
import type { RunEvent } from '@lockwright/records'
import { type Asked, askedNext } from './asked.js'
import type { Confirmation } from './confirmation.js'
import { confirms } from './confirmation.js'
import { interpretCommand } from './interpret-command.js'
import { interpretQuestion } from './interpret-question.js'
import { interpretReading } from './interpret-reading.js'
import { type Interpreted, refuse, type Sitting } from './interpreted.js'
import { signedEvent, ticks } from './signed-event.js'
import { tidy } from './tidy.js'

/**
 * What a typed line means where the run stands: an event to be recorded, a tick on the desk, a page to read, or a
 * refusal that says what can be typed instead. Pure: nothing is recorded here and no time is looked at.
 */
export function interpret(typed: string, sitting: Sitting): Interpreted {
  const line = tidy(typed)
  if (sitting.desk.question !== null) return interpretQuestion(line, sitting, sitting.desk.question)
  if (line === '') return { kind: 'nothing' }
  return interpretCommand(line, sitting) ?? interpretAnswer(line, sitting)
}

function interpretAnswer(line: string, sitting: Sitting): Interpreted {
  const { machine, snapshot, desk, person } = sitting
  const asked = askedNext(machine, snapshot, desk)
  switch (asked.kind) {
    case 'nothing':
      return refuse('The run is closed.', 'Nothing more can be recorded in it.')
    case 'resume':
      if (line === 'missing') return event({ kind: 'resumed', locksOn: false, by: person }, null)
      return confirmed(line, asked.confirm, { kind: 'resumed', locksOn: true, by: person })
    case 'prove-again':
      return asked.input === null
        ? confirmed(line, asked.confirm, {
            kind: 'proven-again',
            source: asked.source,
            value: null,
            typed: line,
            by: person
          })
        : interpretReading(line, sitting, asked.input)
    case 'notice':
      return confirms(line, asked.confirm)
        ? {
            kind: 'desk',
            desk: { ...desk, acknowledged: [...desk.acknowledged, asked.notice.id], last: asked.confirm }
          }
        : notConfirmed(line, asked.confirm)
    case 'boxes':
      return tick(line, sitting, asked)
    case 'lock':
      return interpretLock(line, sitting, asked)
    case 'unlock':
      return interpretUnlock(line, sitting, asked)
    case 'reading':
      if (line === 'outside' && asked.mayGoOutside) {
        return event({ kind: 'choice', state: snapshot.state, answer: 'outside', ...ticks(sitting), by: person }, null)
      }
      return interpretReading(line, sitting, asked.input)
    case 'start-wait':
      return confirmed(line, asked.confirm, {
        kind: 'wait-started',
        state: snapshot.state,
        input: asked.input.id,
        by: person
      })
    case 'waiting':
      return refuse(
        'The wait is not over.',
        'It goes on by the clock and cannot be skipped; a note, a pause or a stop can be typed meanwhile.'
      )
    case 'choose':
      return choose(line, sitting, asked)
    case 'sign':
      return sign(line, sitting, asked)
    case 'done':
      return confirmed(line, asked.confirm, doneEvent(sitting))
  }
}

/** What leaves the state: closed where the state is an end. */
function doneEvent(sitting: Sitting): RunEvent {
  const { machine, snapshot, person } = sitting
  const state = stateOf(machine, snapshot.state)
  switch (state.kind) {
    case 'finish':
      return { kind: 'finished', state: state.id, ...ticks(sitting), by: person }
    case 'stop':
      return { kind: 'stopped', reason: state.reason, by: person }
    default:
      return { kind: 'done', state: state.id, ...ticks(sitting), by: person }
  }
}

function event(recorded: RunEvent, last: Confirmation | null): Interpreted {
  return { kind: 'event', event: recorded, last, signer: null }
}

function confirmed(line: string, confirmation: Confirmation, recorded: RunEvent): Interpreted {
  return confirms(line, confirmation) ? event(recorded, confirmation) : notConfirmed(line, confirmation)
}

function notConfirmed(line: string, { key, word }: Confirmation): Interpreted {
  return refuse(`\`${line}\` is not what is asked for here.`, `Type \`${key}\` or \`${word}\`, or \`help\`.`)
}

function tick(line: string, { desk }: Sitting, { boxes }: Extract<Asked, { readonly kind: 'boxes' }>): Interpreted {
  const numbers = line.split(/[\s,]+/)
  const ticked = numbers.map((text) => boxes.find(({ number }) => String(number) === text))
  if (ticked.some((box) => box === undefined)) {
    return refuse(`\`${line}\` is not the number of a line that is still open.`, 'Type the number of one that is done.')
  }
  const ids = ticked.flatMap((box) => (box === undefined ? [] : [box.input.id]))
  return {
    kind: 'desk',
    desk: { ...desk, boxes: [...new Set([...desk.boxes, ...ids])], last: { key: numbers.at(-1) ?? line, word: '' } }
  }
}

/** `17`, or with the point before it: `Q1 17`. */
function interpretLock(
  line: string,
  { machine, snapshot, person }: Sitting,
  { point }: Extract<Asked, { readonly kind: 'lock' }>
): Interpreted {
  const words = line.split(' ')
  const [first = '', ...rest] = words
  const named = machine.points.find(({ id }) => id === first)
  if (named !== undefined && rest.length > 0 && named.id !== point) {
    return refuse(
      `The lock for \`${point}\` is asked for now, not the one for \`${first}\`.`,
      `Type the number on the lock that hangs on \`${point}\`.`
    )
  }
  const lock = (named === undefined ? words : rest).join(' ')
  if (lock === '' || lock.length > longestLock || !/[\p{L}\p{N}]/u.test(lock)) {
    return refuse(`\`${line}\` is not the number of a lock.`, `Type the number on the lock that hangs on \`${point}\`.`)
  }
  const elsewhere = snapshot.locks.find((hung) => hung.lock === lock)
  if (elsewhere !== undefined) {
    return refuse(
      `Lock ${lock} already hangs on \`${elsewhere.point}\` (${elsewhere.person}).`,
      `Each point has a lock of its own: type the number on the one that hangs on \`${point}\`.`
    )
  }
  return event({ kind: 'lock-hung', state: snapshot.state, point, lock: lock as LockId, by: person }, null)
}

const longestLock = 40

/** The number on the lock; who hung it takes it off. */
function interpretUnlock(
  line: string,
  { snapshot }: Sitting,
  { point, lock }: Extract<Asked, { readonly kind: 'unlock' }>
): Interpreted {
  const given = line.startsWith(`${point} `) ? line.slice(point.length + 1) : line
  if (given !== lock.lock) {
    return refuse(
      `\`${line}\` is not the lock that ${lock.person} hung on \`${point}\`.`,
      `It is lock ${lock.lock}: once ${lock.person} has taken it off, type its number.`
    )
  }
  return event({ kind: 'lock-removed', state: snapshot.state, point, owner: lock.person, by: lock.person }, null)
}

/** By number, by id or by its words. */
function choose(line: string, sitting: Sitting, { options }: Extract<Asked, { readonly kind: 'choose' }>): Interpreted {
  const same = (text: string): boolean => text.toLowerCase() === line.toLowerCase()
  const chosen = /^\d+$/.test(line)
    ? options[Number(line) - 1]
    : options.find(({ answer, label }) => answer === line || same(tidy(label)))
  if (chosen === undefined) {
    const numbers = options.map((_, index) => `\`${index + 1}\``).join(', ')
    return refuse(`\`${line}\` is none of the answers.`, `Type ${numbers}, or an answer in full.`)
  }
  const { machine, snapshot, person } = sitting
  const state = stateOf(machine, snapshot.state)
  return event({ kind: 'choice', state: state.id, answer: chosen.answer, ...ticks(sitting), by: person }, null)
}

/** `sign`, or `sign PERSON`. */
function sign(line: string, sitting: Sitting, asked: Extract<Asked, { readonly kind: 'sign' }>): Interpreted {
  const match = /^sign(?: (\S+))?$/.exec(line)
  if (match === null) {
    return refuse(`\`${line}\` does not sign.`, 'Type `sign`, or `sign PERSON` with the id of whoever signs.')
  }
  const person = (match[1] ?? sitting.person) as PersonId
  if (sitting.keys !== null) {
    return { kind: 'desk', desk: { ...sitting.desk, question: { kind: 'passphrase', person, signs: null } } }
  }
  return event(signedEvent(sitting, asked, person), null)
}
