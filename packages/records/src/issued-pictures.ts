import type { Machine } from '@lockwright/machine'
import type { Issue } from './issue.js'
import type { RecordsFault } from './result.js'

/** A picture as it was when the machine was issued. */
export interface IssuedPicture {
  /** As the procedure names it. */
  readonly source: string
  /** Of the bytes of its file: 64 hexadecimal digits. */
  readonly sha256: string
}

/** The sources of the pictures anywhere in plain data (a machine, the blocks of a sheet), each once. */
export function namedPictures(value: unknown, found: Set<string> = new Set()): ReadonlySet<string> {
  if (Array.isArray(value)) for (const each of value) namedPictures(each, found)
  else if (value !== null && typeof value === 'object') {
    const { kind, source } = value as { readonly kind?: unknown; readonly source?: unknown }
    if (kind === 'image' && typeof source === 'string') found.add(source)
    for (const each of Object.values(value)) namedPictures(each, found)
  }
  return found
}

/** The first picture that the machine names and whoever issues it cannot show, or the other way round; null: none. */
export function lackedPicture(machine: Machine, pictures: readonly IssuedPicture[]): RecordsFault | null {
  const named = namedPictures(machine)
  const known = new Set(pictures.map(({ source }) => source))
  const lacked = [...named].find((source) => !known.has(source))
  if (lacked !== undefined) {
    return {
      id: 'picture-missing',
      file: lacked,
      line: null,
      what: 'The procedure names this picture, and it cannot be read.',
      danger: 'It would be issued unseen, and anybody could put another picture in its place.',
      mend: 'Put the picture where the procedure names it, or take it out of the procedure.'
    }
  }
  const foreign = pictures.find(({ source }, at) => !named.has(source) || pictures[at - 1]?.source === source)
  if (foreign === undefined) return null
  return {
    id: 'picture-not-named',
    file: foreign.source,
    line: null,
    what: 'This picture is not one of those that the procedure names, or it is given twice.',
    danger: 'The signature would cover something that is no part of the procedure.',
    mend: 'Give each picture that the procedure names, once.'
  }
}

/**
 * The first picture that is not the one the coordinator signed: changed, missing (not among `found`), or not under the
 * signature at all, as in issues from before pictures were signed; null: all are.
 */
export function unsignedPicture(issue: Issue, found: readonly IssuedPicture[]): RecordsFault | null {
  const signed = new Map((issue.pictures ?? []).map(({ source, sha256 }) => [source, sha256]))
  const given = new Map(found.map(({ source, sha256 }) => [source, sha256]))
  for (const source of [...new Set([...signed.keys(), ...given.keys()])].sort()) {
    const [then, now] = [signed.get(source), given.get(source)]
    if (then === now) continue
    const anew = 'raise `revision` in the front matter, look at every picture and have a coordinator issue it.'
    return {
      id: then === undefined ? 'picture-not-signed' : now === undefined ? 'picture-missing' : 'picture-changed',
      file: source,
      line: null,
      what:
        then === undefined
          ? 'The signature of the issue does not cover this picture.'
          : now === undefined
            ? 'This picture of an issued procedure cannot be read.'
            : 'This picture is not the one that the coordinator issued: its file was changed.',
      danger:
        now === undefined
          ? 'Whoever works from the sheet would miss what the coordinator saw on it.'
          : 'It may show another device or another handle, and nobody has released it for use.',
      mend:
        then === undefined
          ? `To have it covered, ${anew}`
          : `Bring back the picture that was issued. Where it is to be another one, ${anew}`
    }
  }
  return null
}
