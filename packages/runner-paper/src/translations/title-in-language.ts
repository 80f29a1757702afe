import type { Machine, State } from '@lockwright/machine'
import type { Catalog } from '../catalog.js'
import { englishMade } from '../catalogs/english-made.js'

type Made = Catalog['made']

/**
 * A title that the compiler made in English, as `made` says it; the author's own words in it stay. A title of restraints
 * names them as what they are, and one that was cut ends with a whole word.
 */
export function titleInLanguage(state: State, restraints: Machine['restraints'], made: Made): string {
  const { kind } = state
  const title = wholeWords(state.title)
  const inEnglish = builtTitle(state, englishMade)
  if (inEnglish !== null && inEnglish === title) {
    return restraintTitle(state, restraints, made) ?? builtTitle(state, made) ?? title
  }
  for (const [name, bare] of Object.entries(englishMade.bare)) {
    if (bare === title) return made.bare[name as keyof Made['bare']]
  }
  const before = englishMade.before[kind]
  if (before !== undefined && title.startsWith(`${before} `)) {
    return `${made.before[kind] ?? before} ${title.slice(before.length + 1)}`
  }
  return partlyBuilt(title, made)
}

function restraintTitle(state: State, restraints: Machine['restraints'], { titles }: Made): string | null {
  if (state.kind !== 'restrain' && state.kind !== 'remove') return null
  const names = state.restraints.map((id) => restraints.find((each) => each.id === id)?.is ?? id)
  return state.kind === 'restrain' ? titles.putOn(names) : titles.takeOff(names)
}

/** What the compiler cut within a word ends with the clause before it, else with the word. */
function wholeWords(title: string): string {
  if (!title.endsWith('…')) return title
  const at = title.lastIndexOf(';')
  const short = at > title.length / 3 ? title.slice(0, at) : title.replace(/[\s;,]*\S*…$/, '')
  return short === '' ? title : `${short}\u00A0…`
}

/** A title that is made of the things of the step alone. */
function builtTitle(state: State, { titles }: Made): string | null {
  switch (state.kind) {
    case 'live':
      return titles.live(state.near)
    case 'identify':
      return titles.identify(state.axis)
    case 'isolate':
      return titles.isolate(state.points)
    case 'lock':
      return titles.lock(state.points)
    case 'unlock':
      return titles.unlock(state.points)
    case 'energize':
      return titles.energize(state.points)
    case 'relieve':
      return titles.relieve(state.sources)
    case 'restrain':
      return titles.restrain(state.restraints)
    case 'remove':
      return titles.remove(state.restraints)
    case 'lamp':
      return titles.lamp(state.sources, state.expect)
    case 'prove':
      return state.by === 'trial' ? titles.trial(state.sources) : titles.prove(state.sources)
    case 'signoff':
      return titles.sign(state.role)
    default:
      return null
  }
}

/** Titles of choices and clocks, told from their words: the state does not keep what they were made of. */
function partlyBuilt(title: string, { titles }: Made): string {
  const by = /^By the (\S+)$/.exec(title)?.[1]
  if (by !== undefined) return titles.branch(by)
  const only = /^For (\S+(?:, \S+)*) only$/.exec(title)?.[1]
  if (only !== undefined) return titles.only(only)
  const within = /^Within ([\d.]+) s$/.exec(title)?.[1]
  if (within !== undefined) return titles.within(Number(within))
  const back = /^Go back to (\S+)$/.exec(title)?.[1]
  return back === undefined ? title : titles.back(back)
}
