import { formatDuration } from '@lockwright/energy'
import type { Machine, PersonId, Snapshot } from '@lockwright/machine'
import { visible } from '../text/visible.js'
import { absentOwnerAsks } from './absent-owner.js'
import type { Asked } from './asked.js'
import type { Confirmation } from './confirmation.js'
import { crewLockAsks } from './crew-locks.js'
import { type Desk, isClosing, type OwnEvent, type Question, unsignedWord } from './desk.js'
import { tellLimits } from './limits.js'
import { tellLock } from './missing-lock.js'
import { notSoAsks, notSoWord } from './not-so.js'
import { wordAsks } from './own-word.js'
import { because, running } from './running-wait.js'
import type { Key, Screen } from './screen.js'

type Asking = Pick<Screen, 'question' | 'keys' | 'secret' | 'oneKey'>

interface Questioned {
  readonly machine: Machine
  readonly snapshot: Snapshot
  readonly desk: Desk
  readonly person: PersonId
  readonly asked: Asked
  readonly skips: boolean
}

/** What is asked and what can be typed, in words. */
export function questionOf({
  machine,
  snapshot,
  desk,
  person,
  asked,
  skips
}: Questioned): Asking & Pick<Screen, 'commands'> {
  const asking =
    desk.question === null
      ? stepQuestion(machine, snapshot, asked, skips, person)
      : deskQuestion(snapshot, desk.question, person)
  return {
    ...asking,
    commands: desk.question === null,
    question: visible(asking.question),
    keys: asking.keys.map(({ type, does }) => ({ type: visible(type), does: visible(does) }))
  }
}

function ask(question: string, ...keys: readonly Key[]): Asking {
  return { question, keys, secret: false, oneKey: null }
}

function confirmBy(question: string, { word, key }: Confirmation, does: string): Asking {
  return { ...ask(question, { type: `${key} or ${word}`, does }), oneKey: key }
}

function deskQuestion(snapshot: Snapshot, question: Question, person: PersonId): Asking {
  const back: Key = { type: 'Enter alone', does: 'take it back, nothing is recorded' }
  switch (question.kind) {
    case 'stop-reason':
      return ask('Why does the work stop here? Locks stay on.', { type: 'the reason', does: 'stop the work' }, back)
    case 'stop-left': {
      const needs = question.needs.map(({ why, mend }) => `${why} ${mend}`).join(' ')
      return ask(
        `Before the work stops: ${needs} Then say in what condition the machine is left.`,
        { type: 'the condition', does: 'stop the work; what is typed stays in the record' },
        back
      )
    }
    case 'pause-reason':
      return ask('Why is the work paused? Locks stay on.', { type: 'the reason', does: 'pause the run' }, back)
    case 'note':
      return ask('What is to be noted?', { type: 'the note', does: 'put it into the record' }, back)
    case 'not-so':
      return ask(notSoAsks, { type: 'what is seen', does: 'note it, and stop the work' }, back)
    case 'missing-lock':
      return ask(
        `Which lock is not on? By the record: ${snapshot.locks.map(tellLock).join(', ')}. Keep everybody away: the machine may be live.`,
        { type: 'the number on it, or its point', does: 'put it into the record' },
        back
      )
    case 'found-lock':
      return ask(
        `${tellLock(question.lock)}: where was it, and who hung it again?`,
        { type: 'in words', does: 'it hangs again; put it into the record' },
        back
      )
    case 'passphrase':
      return {
        ...(question.signs === null
          ? ask(`Passphrase of ${question.person}`, { type: 'the passphrase', does: 'sign' }, back)
          : ask(
              `Passphrase of ${question.person}, who signs that ${tellOwn(question.signs)}`,
              { type: 'the passphrase', does: 'sign' },
              isClosing(question.signs) ? { type: 'Enter alone', does: 'do not sign' } : back
            )),
        secret: true
      }
    case 'word':
      return {
        ...ask(
          wordAsks(question),
          { type: question.by === 'name' ? 'the full name' : 'the passphrase', does: 'give your word for it' },
          back
        ),
        secret: question.by === 'passphrase'
      }
    case 'unsigned':
      return ask(
        'Close the run without a signature? Nobody can tell then whether what stands in the record was changed later.',
        { type: unsignedWord, does: `record without a signature that ${tellOwn(question.closes)}` },
        back
      )
    case 'deviation-reason':
      return ask(
        'What was done differently, and why? Whoever answers for it signs.',
        { type: 'the reason', does: 'go on without doing the step as written' },
        back
      )
    case 'absent-owner':
      return ask(
        absentOwnerAsks(question),
        question.directedBy === null
          ? { type: 'an id', does: 'that person, who holds `coordinator`, directs it and was asked' }
          : { type: 'in words', does: 'put it into the record' },
        back
      )
    case 'instrument':
      return ask(
        question.offered.length === 0
          ? `No instrument of this site fits ${question.input.label}: none is rated for it and in calibration today.`
          : `With which instrument is ${question.input.label} read?`,
        ...question.offered.map(({ id, tell }, index) => ({ type: `${index + 1} or ${id}`, does: tell })),
        { type: 'Enter alone', does: 'back to the step; no reading counts without its instrument' }
      )
    case 'who':
      return ask(
        'Who is at the keys from now on?',
        ...question.people.map((person, index) => ({ type: String(index + 1), does: person })),
        { type: 'an id', does: 'somebody else on the roster' },
        { type: 'Enter alone', does: 'nobody else' }
      )
    case 'crew-locks':
      return ask(crewLockAsks(snapshot, question, person), { type: 'the number on the lock', does: 'it hangs' }, back)
    case 'odd-lock':
      return ask(
        `\`${question.typed}\` holds no digit. Look at the lock again.`,
        { type: question.typed, does: 'the same once more: that is what stands on it' },
        { type: 'the number on the lock', does: 'take that one' },
        back
      )
    case 'live-reason':
      return ask(
        `Why did ${question.input.label} read ${question.typed}?`,
        { type: 'what was found', does: 'put it into the record; then measure again' },
        { type: 'Enter alone', does: 'back to the step, where `stop` and `pause` are taken' }
      )
    case 'surprise':
      return ask(
        `${question.why} Look at the instrument again.`,
        { type: question.typed, does: 'the same once more: it stays as it is' },
        { type: 'another reading', does: 'take that one' },
        back
      )
  }
}

function tellOwn({ kind }: OwnEvent): string {
  switch (kind) {
    case 'finished':
      return 'the work is finished'
    case 'stopped':
      return 'the work stops here'
    case 'deviation':
      return 'this step was done differently'
  }
}

function stepQuestion(machine: Machine, snapshot: Snapshot, asked: Asked, skips: boolean, at: PersonId): Asking {
  switch (asked.kind) {
    case 'nothing':
      return ask(asked.ended === 'finished' ? 'The run is finished.' : 'The work was stopped. Locks stay on.')
    case 'resume': {
      const locks = asked.locks.map(({ point, lock, person }) => `lock ${lock} of ${person} on ${point}`)
      const question =
        locks.length === 0
          ? 'The run was interrupted. No lock hung then. Look at the machine. Go on where it stood?'
          : `The run was interrupted. Go to each lock and look: ${locks.join(', ')}. Do they all hang?`
      const yes = confirmBy(
        question,
        asked.confirm,
        locks.length === 0 ? 'the run goes on where it stood' : 'all of them hang'
      )
      return locks.length === 0
        ? yes
        : asked.missing.length > 0
          ? ask(
              `Not on: ${asked.missing.map(({ lock }) => tellLock(lock)).join(', ')}. Keep everybody away: the machine may be live.`,
              { type: 'stop', does: 'stop the work; locks stay on' },
              ...asked.missing.map(({ lock }) => ({ type: `found ${lock.point}`, does: 'it hangs again' })),
              { type: 'missing', does: 'another is not on' }
            )
          : { ...yes, keys: [...yes.keys, { type: 'missing', does: 'one of them is not on' }] }
    }
    case 'prove-again': {
      return asked.input === null
        ? confirmBy(`Prove again that ${asked.source} is dead.`, asked.confirm, 'it was tried and is dead')
        : ask(
            `Prove again that ${asked.source} is dead: ${tellLimits(asked.input)}.`,
            readingKey(asked.input.unit, 'the reading')
          )
    }
    case 'notice':
      return confirmBy('Read it. Then say so.', asked.confirm, 'it was read')
    case 'boxes': {
      const numbers = asked.boxes.map(({ number }) => String(number))
      const [first = ''] = numbers
      const keys: Key = { type: numbers.join(', '), does: 'that line is done' }
      return { ...ask('Which lines are done?', keys), oneKey: numbers.length < 10 && first.length === 1 ? first : null }
    }
    case 'lock':
      return ask(`Hang your lock and tag on ${asked.point}.`, { type: 'the number on the lock', does: 'it hangs' })
    case 'unlock': {
      const { lock, person, point } = asked.lock
      // The number of another's lock is read off the lock by whoever took it off, not off the screen.
      return person === at
        ? ask(`Lock ${lock} of ${person} comes off ${point}.`, { type: lock, does: `${person} took it off` })
        : ask(`The lock of ${person} comes off ${point}.`, {
            type: 'the number on the lock',
            does: `${person} took it off`
          })
    }
    case 'reading':
      return readingQuestion(asked)
    case 'start-wait':
      return confirmBy(
        `Wait ${formatDuration(asked.input.seconds)} (${because(asked.input.because)}).`,
        asked.confirm,
        'start the wait'
      )
    case 'waiting':
      return skips
        ? ask(running(asked), {
            type: 'skip',
            does: 'set the clock of this rehearsal to its end; real waits run to theirs'
          })
        : ask(`${running(asked)} It cannot be skipped.`)
    case 'choose':
      return ask(
        chosenQuestion(machine, snapshot),
        ...asked.options.map(({ label, tell }, index) => ({
          type: String(index + 1),
          does: tell === null ? label : `${label} (${tell})`
        }))
      )
    case 'sign': {
      const role = machine.roles.find(({ id }) => id === asked.role)?.name ?? asked.role
      return ask(
        `${role} signs: ${asked.meaning}`,
        { type: 'sign', does: 'sign it yourself' },
        { type: 'sign PERSON', does: 'someone else signs here' }
      )
    }
    case 'done':
      return asked.looks ? looked(asked.confirm) : confirmBy('All of it done?', asked.confirm, 'yes, go on')
  }
}

function looked(confirm: Confirmation): Asking {
  const asking = confirmBy('Looked at, and all of it as the step says?', confirm, 'yes, go on')
  return { ...asking, keys: [...asking.keys, { type: notSoWord, does: 'it is not: say what is seen, and stop' }] }
}

function readingQuestion({ input, last, mayGoOutside }: Extract<Asked, { readonly kind: 'reading' }>): Asking {
  const limits = tellLimits(input)
  const question = `${input.label}${limits === '' ? '' : `: ${limits}`}${last === null ? '' : `; last read ${last.typed}, out of limits`}`
  const outside: Key = { type: 'outside', does: 'it stays out of limits' }
  return ask(question, readingKey(input.unit, 'the reading'), ...(mayGoOutside ? [outside] : []))
}

function readingKey(unit: string, does: string): Key {
  return { type: unit === '' ? 'what it shows' : `number and unit, such as 0 ${unit}`, does }
}

function chosenQuestion(machine: Machine, snapshot: Snapshot): string {
  const state = machine.states.find(({ id }) => id === snapshot.state)
  switch (state?.kind) {
    case 'ask':
      return state.question
    case 'identify':
      return machine.axes.find(({ id }) => id === state.axis)?.ask ?? state.title
    default:
      return state?.title ?? ''
  }
}
