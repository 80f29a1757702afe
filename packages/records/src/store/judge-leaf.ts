import { sha256Hex } from '../digest.js'
import { type Leaf, parseLeaf } from '../log/leaf.js'
import type { RecordsFault } from '../result.js'
import type { LeafAdded } from './store.js'

/** What a store has of the run of a leaf. */
export interface LeafStanding {
  /** The leaf of that run that is here; null: none. */
  readonly leaf: { readonly index: number; readonly line: string } | null
  /** SHA-256 of line `entries` of the journal; null: it is not here. */
  readonly hash: string | null
}

export type LeafJudged = { readonly kind: 'add' } | Exclude<LeafAdded, { kind: 'added' }>

/** The leaf of a line; else the refusal of what is none. */
export function readLeaf(line: string): { readonly leaf: Leaf } | Extract<LeafAdded, { kind: 'refused' }> {
  const read = parseLeaf(line)
  return 'leaf' in read ? read : refused(read.fault)
}

/** Whether the leaf may be added: a reader never sees one without its journal. */
export function judgeLeaf(line: string, { run, entries, head }: Leaf, standing: LeafStanding): LeafJudged {
  const { leaf, hash } = standing
  if (leaf !== null && leaf.line === line) return { kind: 'same', index: leaf.index }
  if (leaf !== null) {
    const [here, offered] = [sha256Hex(leaf.line), sha256Hex(line)]
    return { kind: 'conflict', here, offered, fault: conflictFault(run, here, offered) }
  }
  if (hash === null) return refused(`line ${entries} of run \`${run}\` is not here`)
  return hash === head ? { kind: 'add' } : refused(`line ${entries} of run \`${run}\` has another hash here`)
}

function refused(why: string): Extract<LeafAdded, { kind: 'refused' }> {
  const fault = {
    id: 'leaf-refused',
    file: 'log',
    line: null,
    what: `A leaf of the site log was not taken: ${why}.`,
    danger: 'The log would vouch for a record that nobody can look at.',
    mend: 'Bring in the whole journal of the run first; audit it where it was written.'
  }
  return { kind: 'refused', fault }
}

function conflictFault(run: string, here: string, offered: string): RecordsFault {
  return {
    id: 'leaf-differs',
    file: 'log',
    line: null,
    what: `Two different leaves stand for run \`${run}\`: here ${here}, offered ${offered} (SHA-256).`,
    danger: 'The run was closed twice with different ends, or one of the logs was made anew.',
    mend: 'Nothing was replaced. Keep both logs, and have a coordinator find out which end of the run is true.'
  }
}
