import { sha256Hex } from '../digest.js'
import type { RecordsFault } from '../result.js'
import { type DocumentFolder, documentFolders } from './store.js'

/** What may stand in each folder, so that a path can never leave it and a half-written file is never taken for one. */
const names: Readonly<Record<DocumentFolder, RegExp>> = {
  issued: /^[0-9a-f]{64}\.(json|jws)$/,
  drafts: /^[0-9a-f]{64}\.json$/,
  attachments: /^[0-9a-f]{64}$/,
  sheets: /^[A-Za-z0-9][A-Za-z0-9_.-]{0,119}\.(json|jsonl|jws|pdf)$/,
  inspections: /^[A-Za-z0-9][A-Za-z0-9_.-]{0,119}\.(json|jws|pdf)$/,
  runs: /^[a-z0-9][a-z0-9-]{0,79}\.torn-[1-9][0-9]{0,5}$/
}

/** Folder and name of a path that a store keeps; null: it keeps none of that kind. */
export function partsOf(path: string): { readonly folder: DocumentFolder; readonly name: string } | null {
  const slash = path.indexOf('/')
  const folder = documentFolders.find((one) => one === path.slice(0, slash))
  const name = path.slice(slash + 1)
  return folder !== undefined && names[folder].test(name) ? { folder, name } : null
}

/** Whether a file of that name in that folder is a document. */
export function isDocument(folder: DocumentFolder, name: string): boolean {
  return names[folder].test(name)
}

/** Why the bytes may not be kept under that path; null: they may. */
export function documentFault(path: string, bytes: Uint8Array): RecordsFault | null {
  const parts = partsOf(path)
  if (parts === null) {
    return {
      id: 'no-document',
      file: path,
      line: null,
      what: 'The path names nothing that a store of records keeps.',
      danger: 'A file could be put where no reader expects it, or over another.',
      mend: 'Keep it under the path that the page on the record format names.'
    }
  }
  const digest = /^([0-9a-f]{64})(\.json)?$/.exec(parts.name)?.[1]
  if (digest === undefined || digest === sha256Hex(bytes)) return null
  return {
    id: 'document-altered',
    file: path,
    line: null,
    what: 'Its bytes are not those whose SHA-256 is its name.',
    danger: 'Another procedure or another picture would pass for the one that the record names.',
    mend: 'Look for an undamaged copy, and do not rely on this one.'
  }
}

/** Other bytes stand under that path. */
export function documentConflict(path: string, here: string, offered: string): RecordsFault {
  return {
    id: 'document-differs',
    file: path,
    line: null,
    what: `Another document stands here under this path: here ${here}, offered ${offered} (SHA-256).`,
    danger: 'One of the two is not what was signed or recorded under that name.',
    mend: 'Nothing was replaced. Have a coordinator compare the two and find out where they part.'
  }
}
