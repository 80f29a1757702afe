import { type PersonId, stateOf } from '@lockwright/machine'
import type { RunEvent } from '@lockwright/records'
import { type Asked, askedNext } from './asked.js'
import type { Confirmation } from './confirmation.js'
import { confirms } from './confirmation.js'
import { interpretCommand } from './interpret-command.js'
import { interpretLock, interpretUnlock } from './interpret-lock.js'
import { interpretQuestion } from './interpret-question.js'
import { interpretNextReading } from './interpret-reading.js'
import { type Interpreted, refuse, type Sitting } from './interpreted.js'
import { askMissing, refuseMissing } from './missing-lock.js'
import { askNotSo, notSoWord } from './not-so.js'
import { withOwnWord } from './own-word.js'
import { signedEvent, ticks } from './signed-event.js'
import { tidy } from './tidy.js'

/**
 * What a typed line means where the run stands: an event to be recorded, a tick on the desk, a page to read, or a
 * refusal that says what can be typed instead. Pure: nothing is recorded here and no time is looked at.
 */
export function interpret(typed: string, sitting: Sitting): Interpreted {
  const line = tidy(typed)
  return withOwnWord(meaningOf(line, sitting), sitting)
}

function meaningOf(line: string, sitting: Sitting): Interpreted {
  if (sitting.desk.question !== null) return interpretQuestion(line, sitting, sitting.desk.question)
  if (line === '') return { kind: 'nothing' }
  return interpretCommand(line, sitting) ?? interpretAnswer(line, sitting)
}

function interpretAnswer(line: string, sitting: Sitting): Interpreted {
  const { machine, snapshot, desk, person } = sitting
  const asked = askedNext(machine, snapshot, desk, sitting.entries)
  switch (asked.kind) {
    case 'nothing':
      return refuse('The run is closed.', 'Nothing more can be recorded in it.')
    case 'resume':
      if (line === 'missing' && asked.locks.length > 0) return askMissing(sitting)
      if (asked.missing.length > 0 && confirms(line, asked.confirm)) return refuseMissing(asked.missing)
      // Without a lock nobody has seen one on; the record says no more than that.
      return confirmed(line, asked.confirm, { kind: 'resumed', locksOn: asked.locks.length > 0, by: person })
    case 'prove-again':
      return asked.input === null
        ? confirmed(line, asked.confirm, {
            kind: 'proven-again',
            source: asked.source,
            value: null,
            typed: line,
            by: person
          })
        : interpretNextReading(line, sitting, asked.input)
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
      return interpretNextReading(line, sitting, asked.input)
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
      if (line.toLowerCase() === notSoWord && asked.looks) return askNotSo(sitting)
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
  const numbers = line.split(/[\s,]+/).filter((text) => text !== '')
  const ticked = numbers.map((text) => boxes.find(({ number }) => String(number) === text))
  if (ticked.length === 0 || ticked.some((box) => box === undefined)) {
    return refuse(`\`${line}\` is not the number of a line that is still open.`, 'Type the number of one that is done.')
  }
  const ids = ticked.flatMap((box) => (box === undefined ? [] : [box.input.id]))
  return {
    kind: 'desk',
    desk: { ...desk, boxes: [...new Set([...desk.boxes, ...ids])], last: { key: numbers.at(-1) ?? line, word: '' } }
  }
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
  // A passphrase that was typed too early must not be told to everybody who looks at the screen.
  const person = (match?.[1] ?? sitting.person) as PersonId
  const unknown = match?.[1] !== undefined && sitting.stranger(person) !== null
  if (match === null || unknown) {
    const ids = sitting.people.length === 0 ? '' : `: ${sitting.people.join(', ')}`
    return refuse(
      unknown ? 'Nobody on the roster has the id that was typed.' : 'What was typed does not sign.',
      `Type \`sign\`, or \`sign PERSON\` with the id of whoever signs${ids}. The passphrase is asked for then.`
    )
  }
  if (sitting.keys !== null) {
    return { kind: 'desk', desk: { ...sitting.desk, question: { kind: 'passphrase', person, signs: null } } }
  }
  return event(signedEvent(sitting, asked, person), null)
}
