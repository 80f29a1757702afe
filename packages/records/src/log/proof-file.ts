import { bad, good, type RecordsResult } from '../result.js'
import { againstBytes } from './check-runs.js'
import type { Checkpoint } from './checkpoint.js'
import { type Leaf, parseLeaf } from './leaf.js'
import type { LogFinding } from './log-findings.js'
import { openCheckpoint } from './open-checkpoint.js'
import { fromBase64, type NoteKey } from './signed-note.js'
import { hashBytes } from './tiles.js'
import { leafHash, type TreeHash } from './tree-hash.js'
import { inclusionHolds } from './verify-tree-proofs.js'

/** What a proof file holds. */
export interface ProofFile {
  /** The leaf as it stands in the log. */
  readonly leaf: string
  readonly index: number
  readonly path: readonly TreeHash[]
  /** The whole note. */
  readonly checkpoint: string
}

const banner = 'c2sp.org/tlog-proof@v1'
const base64 = (bytes: Uint8Array | string): string => Buffer.from(bytes).toString('base64')

/** Text in the C2SP tlog-proof form; the extra line holds the leaf. */
export function formatProofFile({ leaf, index, path, checkpoint }: ProofFile): string {
  return `${[banner, `extra ${base64(leaf)}`, `index ${index}`, ...path.map(base64), '', ''].join('\n')}${checkpoint}`
}

function parseProofFile(text: string): ProofFile | null {
  const end = text.indexOf('\n\n')
  const [first, extra = '', number = '', ...hashes] = text.slice(0, Math.max(end, 0)).split('\n')
  const leaf = fromBase64(/^extra (\S+)$/.exec(extra)?.[1] ?? '')?.toString('utf8')
  const index = /^index (0|[1-9]\d{0,14})$/.exec(number)?.[1]
  const path = hashes.map(fromBase64)
  if (first !== banner || leaf === undefined || index === undefined) return null
  if (!path.every((hash) => hash?.length === hashBytes)) return null
  return { leaf, index: Number(index), path: path as readonly TreeHash[], checkpoint: text.slice(end + 2) }
}

export interface ProvenRun {
  readonly leaf: Leaf
  readonly number: number
  readonly checkpoint: Checkpoint
}

/**
 * Checks a proof with nothing but the root key of the site: who signed the checkpoint, and that the leaf is in its tree.
 * `key`: base64url of the public key, or the key with its name as `log checkpoint` tells it.
 */
export function checkProofFile(text: string, file: string, key: string | NoteKey): RecordsResult<ProvenRun> {
  const proof = parseProofFile(text)
  if (proof === null) return noProof(file, 'it is not in the form that `log prove` writes')
  const origin = proof.checkpoint.split('\n')[0] ?? ''
  const opened = openCheckpoint(proof.checkpoint, [typeof key === 'string' ? { name: origin, key } : key], file)
  if (!opened.ok) return opened
  const { root, size } = opened.value
  const { index, path } = proof
  if (!inclusionHolds({ index, size, leaf: leafHash(proof.leaf), path, root })) {
    return noProof(file, 'its leaf is not in the log that the checkpoint was signed over')
  }
  const read = parseLeaf(proof.leaf)
  return 'fault' in read
    ? noProof(file, `its leaf cannot be read: ${read.fault}`)
    : good({ leaf: read.leaf, number: index, checkpoint: opened.value })
}

/** What speaks against a copy of the journal; null: it is the one that the proof speaks of. */
export function checkJournalOfProof(
  { bytes, file }: { readonly bytes: Uint8Array; readonly file: string },
  { leaf, number }: ProvenRun
): LogFinding | null {
  return againstBytes(bytes, file, number, leaf)
}

function noProof(file: string, why: string): RecordsResult<never> {
  return bad({
    id: 'proof-unsound',
    file,
    what: `The proof proves nothing: ${why}.`,
    danger: 'The run that it speaks of may never have been recorded, or otherwise.',
    mend: 'Have the run proven again with `log prove`, and copy the file whole.'
  })
}
