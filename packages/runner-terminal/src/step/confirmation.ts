import type { StateKind } from '@lockwright/machine'

/** Either of the two confirms: a word, or one key. */
export interface Confirmation {
  readonly word: string
  readonly key: string
}

/**
 * How to say that something was done. Neither key nor word is ever the one that confirmed the thing before, so that
 * no gate is passed by a finger that repeats itself. `turn` spreads the digits; after a crash it gives the same one.
 */
export function confirmationOf(word: string, turn: number, last: Confirmation | null): Confirmation {
  const digits = ['4', '7', '2', '9', '5', '3', '8', '6']
  const first = digits[turn % digits.length] ?? '4'
  const second = digits[(turn + 1) % digits.length] ?? '7'
  return { word: word === last?.word ? `${word} too` : word, key: first === last?.key ? second : first }
}

/** The word that says that a state of this kind is done. */
export function doneWord(kind: StateKind): string {
  switch (kind) {
    case 'gather':
      return 'gathered'
    case 'notify':
      return 'told'
    case 'operate':
      return 'operated'
    case 'look':
    case 'lamp':
      return 'looked'
    case 'live':
      return 'tested'
    case 'shutdown':
      return 'shut down'
    case 'isolate':
      return 'isolated'
    case 'lock':
      return 'locked'
    case 'relieve':
      return 'released'
    case 'restrain':
      return 'fitted'
    case 'prove':
      return 'proven'
    case 'tryout':
      return 'tried'
    case 'measure':
      return 'measured'
    case 'wait':
      return 'waited'
    case 'inspect':
      return 'inspected'
    case 'clear':
      return 'clear'
    case 'remove':
      return 'removed'
    case 'unlock':
      return 'unlocked'
    case 'energize':
      return 'energized'
    case 'stop':
      return 'stopped'
    case 'finish':
      return 'finished'
    case 'work':
    case 'notice':
    case 'ask':
    case 'identify':
    case 'signoff':
    case 'branch':
    case 'timer':
    case 'back':
      return 'done'
  }
}

/** Whether the line is the word or the key; capitals do not matter. */
export function confirms(line: string, { word, key }: Confirmation): boolean {
  return line === key || line.toLowerCase() === word
}
