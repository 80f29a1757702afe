import { askedNext } from './asked.js'
import type { Question } from './desk.js'
import { interpretReading } from './interpret-reading.js'
import { type Interpreted, refuse, type Sitting } from './interpreted.js'
import { signedEvent } from './signed-event.js'

/** The answer to a question of the desk's own. An empty line takes the question back. */
export function interpretQuestion(line: string, sitting: Sitting, question: Question): Interpreted {
  const desk = { ...sitting.desk, question: null }
  if (line === '') return { kind: 'desk', desk }
  const { person } = sitting
  switch (question.kind) {
    case 'note':
      return { kind: 'event', event: { kind: 'note', text: line, by: person }, last: null, signer: null }
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
      return signWith(line, { ...sitting, desk }, question.person)
    case 'surprise':
      return interpretReading(line, { ...sitting, desk }, readingAsked(sitting), question.typed)
  }
}

function readingAsked({ machine, snapshot, desk }: Sitting): Parameters<typeof interpretReading>[2] {
  const asked = askedNext(machine, snapshot, desk)
  if ((asked.kind === 'reading' || asked.kind === 'prove-again') && asked.input !== null) return asked.input
  throw new Error('a surprising reading is only asked about where a reading is asked for')
}

function signWith(passphrase: string, sitting: Sitting, person: Sitting['person']): Interpreted {
  const asked = askedNext(sitting.machine, sitting.snapshot, sitting.desk)
  if (asked.kind !== 'sign' || sitting.keys === null) {
    return refuse('Nothing is to be signed here.', 'Type `help` for what can be typed.', sitting.desk)
  }
  const opened = sitting.keys(person, passphrase)
  if (!opened.ok) return refuse(opened.why, opened.mend, sitting.desk)
  return { kind: 'event', event: signedEvent(sitting, asked, person), last: null, signer: opened.signer }
}
