import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import type { Entry, Site } from '@lockwright/records'
import { type GoldenSite, goldenSites } from '../../packages/records/fixtures/golden-sites.js'
import { auditRun } from '../../packages/records/src/audit/audit-run.js'
import { type Grounds, gather, readGrounds } from '../../packages/records/src/audit/evidence.js'
import type { RunAudit } from '../../packages/records/src/audit/report.js'
import type { Found } from '../../packages/records/src/audit/verdict.js'
import { whole } from '../../packages/records/src/audit/whole.js'
import { journalFiles } from '../../packages/records/src/list-runs.js'

/** A journal of a golden site, and ways to look at what someone made of it. */
export interface GoldenJournal {
  readonly golden: GoldenSite
  /** `format 2, fan` */
  readonly title: string
  readonly file: string
  readonly grounds: Grounds
  readonly bytes: Buffer
  /** Each with its line feed. */
  readonly lines: readonly string[]
  readonly entries: readonly Entry[]
  /** The whole audit of this journal with other content. */
  readonly audited: (content: Uint8Array | string, grounds?: Grounds) => RunAudit
  /** The first question alone: what speaks against it, or is missing. */
  readonly wholeOf: (content: Uint8Array | string) => readonly Found[]
}

export const goldenJournals: readonly GoldenJournal[] = goldenSites.flatMap((golden) => {
  const grounds = readGrounds(golden.site)
  return journalFiles(golden.site).map((file): GoldenJournal => {
    const bytes = readFileSync(file)
    const lines = bytes.toString('utf8').split(/(?<=\n)/)
    return {
      golden,
      title: `format ${golden.version}, ${basename(file, '.jsonl')}`,
      file,
      grounds,
      bytes,
      lines,
      entries: lines.map((line) => JSON.parse(line) as Entry),
      audited: (content, on = grounds) => auditRun(on, file, Buffer.from(content), { stories: false }),
      wholeOf: (content) => whole(gather(grounds, file, Buffer.from(content))).found
    }
  })
})

/** Two other bytes in the place of one: a bit of it turned, a different one each time, and another character of the same kind. */
export function substitutes(byte: number, position: number): readonly number[] {
  const turned = byte ^ (1 << (position % 8))
  const next = byte === 0x39 || byte === 0x7a || byte === 0x5a ? byte - 1 : byte + 1
  return turned === next ? [turned, byte ^ 0x80] : [turned, next & 0xff]
}

export function replaced(bytes: Uint8Array, position: number, byte: number): Uint8Array {
  const changed = Uint8Array.from(bytes)
  changed[position] = byte
  return changed
}

/** Every byte of a file, each with both of its substitutes. */
export function* everyByte(bytes: Uint8Array): Generator<{ readonly position: number; readonly changed: Uint8Array }> {
  for (const [position, byte] of bytes.entries()) {
    for (const other of substitutes(byte, position)) yield { position, changed: replaced(bytes, position, other) }
  }
}

/** A copy of a golden site that may be spoiled. */
export async function inCopyOf<Value>(
  golden: GoldenSite,
  body: (site: Site) => Promise<Value> | Value
): Promise<Value> {
  const folder = mkdtempSync(join(tmpdir(), 'lockwright-tamper-'))
  try {
    cpSync(golden.site.folder, folder, { recursive: true })
    return await body({ folder })
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** Puts every variant of a file in its place, one after the other, and the file back at the end. */
export function eachVariant(file: string, body: (position: number) => void): number {
  const bytes = readFileSync(file)
  let variants = 0
  for (const { position, changed } of everyByte(bytes)) {
    writeFileSync(file, changed)
    body(position)
    variants += 1
  }
  writeFileSync(file, bytes)
  return variants
}
