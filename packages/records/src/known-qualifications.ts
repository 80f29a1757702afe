import { existsSync, readdirSync } from 'node:fs'
import { dirname } from 'node:path'
import { coordinator, keptMachine } from './issue.js'
import type { Roster } from './roster.js'
import { layout, type Site } from './site.js'

/** What roles of the procedures that are kept here ask for, what people hold already, and `coordinator`; sorted. */
export function knownQualifications(site: Site, roster: Roster): readonly string[] {
  const asked = keptDigests(site).flatMap((digest) => {
    const kept = keptMachine(site, digest)
    return kept.ok ? kept.value.roles.flatMap((role) => role.holds) : []
  })
  const held = roster.people.flatMap((person) => person.qualifications.map((one) => one.is))
  return [...new Set([coordinator, ...asked, ...held])].toSorted()
}

function keptDigests(site: Site): readonly string[] {
  return [dirname(layout.issued(site, '')), dirname(layout.draft(site, ''))]
    .filter((folder) => existsSync(folder))
    .flatMap((folder) => readdirSync(folder))
    .filter((name) => name.endsWith('.json'))
    .map((name) => name.slice(0, -'.json'.length))
}
