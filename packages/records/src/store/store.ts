import type { RunId } from '../entry.js'
import type { Tile } from '../log/tiles.js'
import type { RecordsFault } from '../result.js'
import type { RunSummary } from '../run-types.js'

/** A lock that hangs by the entries alone, without a replay of the machine. */
export interface HungLock {
  readonly point: string
  readonly lock: string
  /** Id of whoever hung it. */
  readonly person: string
  /** RFC 3339, from the entry that hung it. */
  readonly since: string
}

/** A run as a list shows it. `file` is `runs/<run>.jsonl` in every store. */
export interface StoredRun extends RunSummary {
  /** SHA-256 of the last whole line, in 64 hex digits. */
  readonly head: string
  /** In the order in which they were hung; a rehearsal hangs none. */
  readonly locks: readonly HungLock[]
}

/** Which runs: all that fit everything that is given. */
export interface WhichRuns {
  /** Neither finished nor stopped; `false`: those that are. */
  readonly open?: boolean
  /** Locks hang by its entries. */
  readonly hanging?: true
  /** RFC 3339: something happened in it at that time or later. */
  readonly since?: string
  /** Tag of the equipment. */
  readonly equipment?: string
  /** Id of a person who answers for an entry of it or signed one. */
  readonly person?: string
  readonly procedure?: string
}

export interface RunListing {
  /** The latest opened first; of two opened at once the one whose name comes first. */
  readonly runs: readonly StoredRun[]
  /** Journals that have no readable opening; given with every choice of runs. */
  readonly faults: readonly RecordsFault[]
}

/** How far a store has a run. */
export interface RunHead {
  readonly entries: number
  /** SHA-256 of the last of them. */
  readonly hash: string
}

/** What became of lines that were handed in. Whatever was refused changed nothing. */
export type Appended =
  /** `added` may be 0: all of it stood there already. */
  | { readonly kind: 'appended'; readonly added: number; readonly entries: number }
  /** Another line stands under that number. Which one is true a person has to find out. */
  | {
      readonly kind: 'fork'
      readonly run: string
      readonly seq: number
      /** SHA-256 of the line that stands here, and of the one that was handed in. */
      readonly here: string
      readonly offered: string
      readonly fault: RecordsFault
    }
  /** Lines before them are not here yet. */
  | { readonly kind: 'gap'; readonly run: string; readonly expected: number; readonly fault: RecordsFault }
  /** No entry of this run at that place, or the journal cannot be written now. */
  | { readonly kind: 'refused'; readonly run: string; readonly fault: RecordsFault }

/** Folders of documents that are written once. `runs` holds torn last lines that were set aside. */
export const documentFolders = ['issued', 'drafts', 'attachments', 'sheets', 'inspections', 'runs'] as const
export type DocumentFolder = (typeof documentFolders)[number]

export interface StoredDocument {
  /** `issued/<digest>.json` and so on: from the site folder, with `/`. */
  readonly path: string
  readonly sha256: string
}

/** What became of a document. */
export type Kept =
  | { readonly kind: 'kept' }
  /** The same bytes stood there already. */
  | { readonly kind: 'same' }
  /** Others stand there. */
  | { readonly kind: 'conflict'; readonly here: string; readonly offered: string; readonly fault: RecordsFault }
  /** The path names nothing that a store keeps, or the bytes are not those that their name says. */
  | { readonly kind: 'refused'; readonly fault: RecordsFault }

/** Documents that the root key signs anew with each change, each with a serial number. */
export const signedNames = ['people.yaml', 'instruments.yaml'] as const
export type SignedName = (typeof signedNames)[number]

/** What became of a signed document. */
export type Superseded =
  | { readonly kind: 'kept'; readonly serial: number }
  | { readonly kind: 'same'; readonly serial: number }
  /** A later one stands here. */
  | { readonly kind: 'older'; readonly here: number; readonly offered: number; readonly fault: RecordsFault }
  /** Another one stands under the same number. */
  | { readonly kind: 'conflict'; readonly here: string; readonly offered: string; readonly fault: RecordsFault }
  /** Its signature does not hold, or it is not of the root key that signed what stands here. */
  | { readonly kind: 'refused'; readonly fault: RecordsFault }

/** What became of a leaf of the site log. */
export type LeafAdded =
  /** `index` counts from 0, without gaps, in the order in which the leaves came in. */
  | { readonly kind: 'added'; readonly index: number }
  | { readonly kind: 'same'; readonly index: number }
  /** The run has another leaf already. */
  | { readonly kind: 'conflict'; readonly here: string; readonly offered: string; readonly fault: RecordsFault }
  /** No leaf, or the journal that it speaks of is not here, not to that entry, or not with that hash. */
  | { readonly kind: 'refused'; readonly fault: RecordsFault }

/**
 * Where records are kept: a site folder, a database that several sites share, or memory. Nothing that was taken is ever
 * changed or removed through it. A store that cannot be reached or cannot read its disk rejects with `StoreFailure`;
 * what such a call would have written is then there whole (all lines from the first on up to some line, all of a
 * document) or not at all, and may be handed in again.
 */
export interface Store {
  /** The folder, or the address without its password. */
  readonly name: string

  runs(which?: WhichRuns): Promise<RunListing>
  /** Names of all journals in their order, readable or not. */
  runIds(): Promise<readonly string[]>
  /** The bytes of a journal as they are in the file; null: there is none. A folder can have a torn last line in it. */
  journal(run: string): Promise<Uint8Array | null>
  /** Of those runs that are here. */
  heads(runs: readonly string[]): Promise<ReadonlyMap<string, RunHead>>
  /**
   * Adds whole lines, without their line feeds, of which the first is number `from`. Lines that are here already are
   * compared and passed over, so that handing in twice is harmless.
   */
  append(run: RunId, from: number, lines: readonly string[]): Promise<Appended>

  /** In the order of their paths. */
  documents(folder: DocumentFolder): Promise<readonly StoredDocument[]>
  /** Null: it is not here. */
  document(path: string): Promise<Uint8Array | null>
  keep(path: string, bytes: Uint8Array): Promise<Kept>

  /** Paths of the records of printed sheets that no run was entered from and that were not declared void. */
  sheetsOut(): Promise<readonly string[]>

  /** The one that holds now; null: there is none. */
  signed(name: SignedName): Promise<Uint8Array | null>
  supersede(name: SignedName, bytes: Uint8Array): Promise<Superseded>

  /** How many leaves the site log has here. */
  leafCount(): Promise<number>
  /** Leaves from number `from` (0) on, at most `most` of them, each its line without the line feed. */
  leaves(from?: number, most?: number): Promise<readonly string[]>
  addLeaf(line: string): Promise<LeafAdded>
  /** Of those runs that have a leaf: SHA-256 of its line. */
  leafHashes(runs: readonly string[]): Promise<ReadonlyMap<string, string>>
  /**
   * Hashes of a tile of the tree over these leaves (`Tile` of the site log), at least as many as its `width` asks for;
   * null: the tree has not grown so far. A proof costs a few of these, however many leaves there are.
   */
  tile(tile: Tile): Promise<Uint8Array | null>
  /** The signed checkpoint of the largest tree; null: none was kept yet. */
  checkpoint(): Promise<string | null>
  /** Keeps a checkpoint that the root key of the roster here signed, if it is what the log here was at that size. */
  keepCheckpoint(note: string): Promise<Kept>

  close(): Promise<void>
}
