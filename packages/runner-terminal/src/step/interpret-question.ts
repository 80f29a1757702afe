import { parseReading } from '@lockwright/energy'
import { stateOf } from '@lockwright/machine'
import { absentOwner } from './absent-owner.js'
import { askedNext } from './asked.js'
import { whoAnswers } from './at-the-keys.js'
import { doneWord } from './confirmation.js'
import { crewLock } from './crew-locks.js'
import { isClosing, type OwnEvent, type Question, unsignedWord } from './desk.js'
import { deviate } from './deviate.js'
import { commandWords } from './interpret-command.js'
import { interpretLock } from './interpret-lock.js'
import { interpretReading } from './interpret-reading.js'
import { type Interpreted, refuse, type Sitting } from './interpreted.js'
import { reasonNote } from './live-reading.js'
import { reportFound, reportMissing } from './missing-lock.js'
import { notSo } from './not-so.js'
import { giveWord } from './own-word.js'
import { signedEvent } from './signed-event.js'
import { chooseInstrument } from './with-instrument.js'

/** The answer to a question of the desk's own. An empty line takes the question back. */
export function interpretQuestion(line: string, sitting: Sitting, question: Question): Interpreted {
  const desk = { ...sitting.desk, question: null }
  const secret = question.kind === 'passphrase' || question.kind === 'word'
  if (line === '' && question.kind === 'passphrase' && question.signs !== null && isClosing(question.signs)) {
    return { kind: 'desk', desk: { ...desk, question: { kind: 'unsigned', closes: question.signs } } }
  }
  if (line === '' && question.kind === 'instrument') {
    return { kind: 'desk', desk: { ...desk, withoutInstrument: question.input.id } }
  }
  if (line === '') return { kind: 'desk', desk }
  if (!secret && commandWords.includes(line.toLowerCase())) {
    return refuse(
      `\`${line}\` alone was not taken: it is a command, and this question is open.`,
      `Answer it in more words, or leave it with Enter alone; then type \`${line}\`.`
    )
  }
  const { person } = sitting
  switch (question.kind) {
    case 'note':
      return { kind: 'event', event: { kind: 'note', text: line, by: person }, last: null, signer: null }
    case 'not-so':
      return notSo(line, sitting)
    case 'missing-lock':
      return reportMissing(line, sitting)
    case 'found-lock':
      return reportFound(line, sitting, question)
    case 'pause-reason':
      return { kind: 'event', event: { kind: 'paused', reason: line, by: person }, last: null, signer: null }
    case 'stop-reason':
      return { kind: 'event', event: { kind: 'stopped', reason: line, by: person }, last: null, signer: null }
    case 'stop-left':
      return {
        kind: 'event',
        event: { kind: 'stopped', reason: question.reason, left: line, by: person },
        last: null,
        signer: null
      }
    case 'passphrase':
      return question.signs === null
        ? signWith(line, { ...sitting, desk }, question.person)
        : signOwn(line, sitting, question, question.signs)
    case 'word':
      return giveWord(line, sitting, question)
    case 'deviation-reason':
      return deviate(line, { ...sitting, desk })
    case 'absent-owner':
      return absentOwner(line, sitting, question)
    case 'instrument':
      return chooseInstrument(line, { ...sitting, desk }, question)
    case 'who':
      return whoAnswers(line, { ...sitting, desk }, question.people)
    case 'crew-locks':
      return crewLock(line, sitting, question)
    case 'unsigned':
      return line.toLowerCase() === unsignedWord
        ? { kind: 'event', event: question.closes, last: null, signer: 'nobody' }
        : refuse(`\`${line}\` is not what is asked for here.`, `Type \`${unsignedWord}\`, or Enter alone.`)
    case 'surprise':
      return interpretReading(line, { ...sitting, desk }, readingAsked(sitting), question.typed)
    case 'odd-lock': {
      const asked = askedNext(sitting.machine, sitting.snapshot, desk)
      return asked.kind === 'lock'
        ? interpretLock(line, { ...sitting, desk }, asked, question.typed)
        : refuse('No lock is asked for here.', 'Type `help` for what can be typed.', desk)
    }
    case 'live-reason':
      return liveReason(line, sitting, question)
  }
}

/** Another reading is no reason: what was live is not measured again before somebody has said why it was. */
function liveReason(
  line: string,
  { machine, snapshot, person }: Sitting,
  { input, typed }: Extract<Question, { readonly kind: 'live-reason' }>
): Interpreted {
  if (/^[-+]?[\d.,]+$/.test(line) || parseReading(line, input.unit).ok) {
    return refuse(
      `\`${line}\` was not taken as a reading: why ${input.label} read ${typed} is asked for first.`,
      'Say in words what was found; then measure again.'
    )
  }
  if (line.toLowerCase() === doneWord(stateOf(machine, snapshot.state).kind)) {
    return refuse(`\`${line}\` says nothing about why.`, 'Say in words what was found.')
  }
  return {
    kind: 'event',
    event: { kind: 'note', text: reasonNote({ input, typed }, line), by: person },
    last: null,
    signer: null
  }
}

function readingAsked({ machine, snapshot, desk }: Sitting): Parameters<typeof interpretReading>[2] {
  const asked = askedNext(machine, snapshot, desk)
  if ((asked.kind === 'reading' || asked.kind === 'prove-again') && asked.input !== null) return asked.input
  throw new Error('a surprising reading is only asked about where a reading is asked for')
}

/** A wrong passphrase is asked for again, unseen, as long as another is tried: what is to be signed is not lost by it. */
function signOwn(
  passphrase: string,
  { keys, desk }: Sitting,
  { person }: Extract<Question, { readonly kind: 'passphrase' }>,
  signs: OwnEvent
): Interpreted {
  if (keys === null) throw new Error('a passphrase is only asked for where there are keys')
  const opened = keys.open(person, passphrase)
  if (!opened.ok) return refuse(opened.why, opened.mend, opened.final === true ? { ...desk, question: null } : null)
  return { kind: 'event', event: signs, last: null, signer: opened.signer }
}

function signWith(passphrase: string, sitting: Sitting, person: Sitting['person']): Interpreted {
  const asked = askedNext(sitting.machine, sitting.snapshot, sitting.desk)
  if (asked.kind !== 'sign' || sitting.keys === null) {
    return refuse('Nothing is to be signed here.', 'Type `help` for what can be typed.', sitting.desk)
  }
  const opened = sitting.keys.open(person, passphrase)
  if (!opened.ok) return refuse(opened.why, opened.mend, opened.final === true ? sitting.desk : null)
  return { kind: 'event', event: signedEvent(sitting, asked, person), last: null, signer: opened.signer }
}
