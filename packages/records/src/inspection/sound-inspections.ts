import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { RecordsFault } from '../result.js'
import type { Roster } from '../roster.js'
import { layout, type Site } from '../site.js'
import { type Inspection, parseInspection } from './inspection.js'

/** A file of the folder of inspections. */
export interface InspectionFile {
  readonly file: string
  readonly bytes: Uint8Array
}

export interface KeptInspection {
  readonly inspection: Inspection
  readonly file: string
}

/** Those whose form and signature hold, and what is wrong with the others. */
export interface InspectionsRead {
  readonly sound: readonly KeptInspection[]
  readonly faults: readonly RecordsFault[]
}

export function inspectionFiles(site: Site): readonly InspectionFile[] {
  const folder = layout.inspections(site)
  if (!existsSync(folder)) return []
  return readdirSync(folder)
    .filter((name) => name.endsWith('.jws'))
    .toSorted()
    .map((name) => ({ file: join(folder, name), bytes: readFileSync(join(folder, name)) }))
}

export function readInspections(files: readonly InspectionFile[], roster: Roster): InspectionsRead {
  const sound: KeptInspection[] = []
  const faults: RecordsFault[] = []
  for (const { file, bytes } of files) {
    const read = parseInspection(bytes, file, roster)
    if (read.ok) sound.push({ inspection: read.value, file })
    else faults.push(...read.faults)
  }
  return { sound, faults }
}

export function soundInspections(site: Site, roster: Roster): InspectionsRead {
  return readInspections(inspectionFiles(site), roster)
}
