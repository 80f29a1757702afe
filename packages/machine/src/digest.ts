import { createHash } from 'node:crypto'
import canonicalize from 'canonicalize'
import type { Machine } from './machine.js'

/** RFC 8785 canonical JSON. Throws on what JSON cannot hold (NaN, lone surrogates): machines and entries never do. */
export function canonical(value: unknown): string {
  const text = canonicalize(value)
  if (text === undefined) throw new Error('only JSON values have a canonical form')
  return text
}

function sha256(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex')
}

/** SHA-256 over the canonical form of the machine, as 64 hex digits. */
export function digestOf(machine: Machine): string {
  return sha256(canonical(machine))
}

/** Keys that hold text for people or places in a file; the skeleton has none of them. */
const textKeys: ReadonlySet<string> = new Set([
  'title',
  'scope',
  'intro',
  'body',
  'label',
  'text',
  'says',
  'span',
  'name',
  'tell',
  'ask',
  'is',
  'where',
  'safe',
  'why',
  'describe',
  'details',
  'question',
  'meaning',
  'reason',
  'language',
  'place',
  'by',
  'written',
  'fault',
  'known',
  'from'
])

/**
 * The digest of the machine without its text. Made ids follow headings, which a translation changes, so states
 * and sections are numbered in reading order: two translations of one procedure have the same skeleton.
 */
export function skeletonOf(machine: Machine): string {
  const renamed = new Map<string, string>()
  machine.states.forEach((state, index) => {
    renamed.set(state.id, `s${index}`)
  })
  machine.states.forEach((state, index) => {
    if (!renamed.has(state.step)) renamed.set(state.step, `s${index}`)
  })
  machine.sections.forEach(({ id }, index) => {
    renamed.set(id, `h${index}`)
  })
  return sha256(canonical(withoutText(machine, renamed, null)))
}

/** Presence of a text still counts where the meaning hangs on it: why, known, unfed, guarded and the like become true. */
const meaningful: ReadonlySet<string> = new Set([
  'why',
  'known',
  'from',
  'unfed',
  'guarded',
  'needsPower',
  'noStartControl',
  'tell'
])

function withoutText(value: unknown, renamed: ReadonlyMap<string, string>, key: string | null): unknown {
  if (typeof value === 'string') {
    if (key !== null && meaningful.has(key)) return true
    return renamed.get(value) ?? value
  }
  if (Array.isArray(value)) return value.map((item) => withoutText(item, renamed, key))
  if (value === null || typeof value !== 'object') return value
  const kept: [string, unknown][] = []
  for (const [name, inner] of Object.entries(value)) {
    if (isCondition(value) && name === 'is') kept.push([name, inner])
    else if (meaningful.has(name)) kept.push([name, withoutText(inner, renamed, name)])
    else if (!textKeys.has(name)) kept.push([name, withoutText(inner, renamed, name)])
  }
  return Object.fromEntries(kept)
}

/** `is` names the condition in a rung, but describes the device in a declaration. */
function isCondition(value: object): boolean {
  return 'is' in value && !('span' in value)
}
