import { sha256Hex } from '../digest.js'
import { documentConflict, documentFault } from '../store/document-path.js'
import { judgeAppend } from '../store/judge-append.js'
import { judgeLeaf, readLeaf } from '../store/judge-leaf.js'
import { judgeSigned } from '../store/judge-signed.js'
import type { Appended, Kept, LeafAdded, SignedName, Superseded } from '../store/store.js'
import type { Connection, Query } from './connection.js'
import { signedStatement } from './list-queries.js'

/** The lock that the trigger of the same table takes as well: held from before the judging to the end of the transaction. */
const lock = (query: Query, of: string) => query('SELECT pg_advisory_xact_lock(20260302, hashtext($1))', [of])

/** All of the new lines in one transaction. */
export function appendEntries(
  connection: Connection,
  run: string,
  from: number,
  lines: readonly string[]
): Promise<Appended> {
  const unseen = judgeAppend(run, from, lines.slice(0, 0), { entries: Number.MAX_SAFE_INTEGER, hashOf: () => '' })
  if (unseen.kind === 'refused') return Promise.resolve(unseen)
  return connection.transaction(async (query) => {
    await lock(query, run)
    const [standing] = await query('SELECT entries FROM lockwright.runs WHERE run = $1', [run])
    const entries = Number(standing?.['entries'] ?? 0)
    const found = await query(
      "SELECT seq, encode(sha256(line), 'hex') AS hash FROM lockwright.entries WHERE run = $1 AND seq BETWEEN $2 AND $3",
      [run, Math.min(from - 1, entries), Math.min(from - 1 + lines.length, entries)]
    )
    const hashes = new Map(found.map(({ seq, hash }) => [Number(seq), String(hash)]))
    const judged = judgeAppend(run, from, lines, { entries, hashOf: (seq) => hashes.get(seq) ?? '' })
    if (judged.kind !== 'add') return judged
    const added = judged.lines.length
    if (added > 0) {
      await query(
        `INSERT INTO lockwright.entries (run, seq, line)
           SELECT $1, $2 + n, line FROM unnest($3::bytea[]) WITH ORDINALITY AS list (line, n) ORDER BY n`,
        [run, entries, judged.lines.map((line) => Buffer.from(line))]
      )
    }
    return { kind: 'appended', added, entries: entries + added }
  })
}

export async function keepDocument(connection: Connection, path: string, bytes: Uint8Array): Promise<Kept> {
  const fault = documentFault(path, bytes)
  if (fault !== null) return { kind: 'refused', fault }
  return await connection.transaction(async (query) => {
    const made = await query(
      'INSERT INTO lockwright.documents (path, content) VALUES ($1, $2) ON CONFLICT DO NOTHING RETURNING path',
      [path, Buffer.from(bytes)]
    )
    if (made.length > 0) return { kind: 'kept' }
    const standing = await query("SELECT encode(sha256, 'hex') AS sha256 FROM lockwright.documents WHERE path = $1", [
      path
    ])
    const [here, offered] = [String(standing[0]?.['sha256']), sha256Hex(bytes)]
    if (here === offered) return { kind: 'same' }
    return { kind: 'conflict', here, offered, fault: documentConflict(path, here, offered) }
  })
}

export function supersedeSigned(connection: Connection, name: SignedName, bytes: Uint8Array): Promise<Superseded> {
  return connection.transaction(async (query) => {
    await lock(query, '/signed')
    const holding = async (of: SignedName): Promise<Uint8Array | null> => {
      const { text, values } = signedStatement(of)
      return ((await query(text, values))[0]?.['content'] as Uint8Array | undefined) ?? null
    }
    const roster = await holding('people.yaml')
    const judged = judgeSigned(name, bytes, { roster, current: name === 'people.yaml' ? roster : await holding(name) })
    if (judged.kind !== 'take') return judged
    await query('INSERT INTO lockwright.signed (name, serial, content) VALUES ($1, $2, $3)', [
      name,
      judged.serial,
      Buffer.from(bytes)
    ])
    return { kind: 'kept', serial: judged.serial }
  })
}

export async function sequenceLeaf(connection: Connection, line: string): Promise<LeafAdded> {
  const read = readLeaf(line)
  if (!('leaf' in read)) return read
  const { leaf } = read
  return await connection.transaction(async (query) => {
    await lock(query, '/log')
    const [standing] = await query('SELECT index, line FROM lockwright.leaves WHERE run = $1', [leaf.run])
    const [closing] = await query(
      "SELECT encode(sha256(line), 'hex') AS hash FROM lockwright.entries WHERE run = $1 AND seq = $2",
      [leaf.run, leaf.entries]
    )
    const judged = judgeLeaf(line, leaf, {
      leaf:
        standing === undefined
          ? null
          : { index: Number(standing['index']), line: Buffer.from(standing['line'] as Uint8Array).toString('utf8') },
      hash: closing === undefined ? null : String(closing['hash'])
    })
    if (judged.kind !== 'add') return judged
    const [added] = await query('INSERT INTO lockwright.leaves (run, line) VALUES ($1, $2) RETURNING index', [
      leaf.run,
      Buffer.from(line)
    ])
    return { kind: 'added', index: Number(added?.['index']) }
  })
}

export async function insertCheckpoint(connection: Connection, size: number, note: string): Promise<Kept> {
  const made = await connection.query(
    'INSERT INTO lockwright.checkpoints (size, note) VALUES ($1, $2) ON CONFLICT DO NOTHING RETURNING size',
    [size, Buffer.from(note)]
  )
  return { kind: made.length > 0 ? 'kept' : 'same' }
}
