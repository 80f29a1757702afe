import type { Machine, PersonId } from '@lockwright/machine'
import type { Entry } from '../entry.js'
import type { Roster } from '../roster.js'
import { holdsAt, personOf } from '../roster-file.js'

/** Someone who stands in a run of a procedure, from the day of their first entry to that of their last. */
export interface Use {
  readonly run: string
  readonly person: PersonId
  /** `YYYY-MM-DD` */
  readonly from: string
  readonly to: string
}

/** Who worked in a run. A rehearsal is no use, and whoever only types a sheet in does not use the procedure. */
export function usesIn(run: string, entries: readonly Entry[]): readonly Use[] {
  const [first] = entries
  if (first?.event.kind === 'opened' && first.event.mode === 'rehearsal') return []
  const uses = new Map<PersonId, Use>()
  for (const entry of entries) {
    const day = entry.at.slice(0, 10)
    for (const person of peopleIn(entry)) {
      const use = uses.get(person)
      const from = use === undefined || day < use.from ? day : use.from
      const to = use === undefined || day > use.to ? day : use.to
      uses.set(person, { run, person, from, to })
    }
  }
  return [...uses.values()]
}

function peopleIn({ by, event }: Entry): readonly PersonId[] {
  if (event.kind === 'handed-over') return [by, event.to]
  return event.kind === 'lock-removed' ? [by, event.owner] : [by]
}

/** Everyone who used the procedure on one of these days, each with a run in which they did. */
export function usersOf(uses: readonly Use[], from: string, to: string): ReadonlyMap<PersonId, string> {
  const users = new Map<PersonId, string>()
  for (const use of uses) {
    if (use.to >= from && use.from <= to && !users.has(use.person)) users.set(use.person, use.run)
  }
  return users
}

/**
 * Why this person may not inspect, in words; null: may. 29 CFR 1910.147(c)(6)(i)(A): an authorized employee other than
 * the one or ones who use the procedure. Authorized is taken as: holds on that day what some role of the procedure asks
 * for; where no role asks for anything, stands on the roster.
 */
export function inspectorFault(
  inspector: PersonId,
  on: string,
  machine: Machine,
  roster: Roster,
  users: ReadonlyMap<PersonId, string>,
  employees: readonly PersonId[]
): { readonly why: string; readonly mend: string } | null {
  const other = 'Have it inspected by another authorized employee, who does not work by this procedure.'
  if (employees.includes(inspector)) {
    return {
      why: `\`${inspector}\` is among the employees who were inspected. The inspector has to be someone other than those who use the procedure (29 CFR 1910.147(c)(6)(i)(A))`,
      mend: other
    }
  }
  const run = users.get(inspector)
  if (run !== undefined) {
    return {
      why: `\`${inspector}\` worked by this procedure within the inspected time, in run ${run}. The inspector has to be someone other than those who use it (29 CFR 1910.147(c)(6)(i)(A))`,
      mend: other
    }
  }
  const person = personOf(roster, inspector)
  if (person === null)
    return { why: `the roster does not know \`${inspector}\``, mend: 'Give the id as `people list` shows it.' }
  const asked = machine.roles.filter((role) => role.holds.length > 0)
  if (asked.length === 0 || asked.some((role) => holdsAt(person, role.holds, on))) return null
  const ways = asked.map((role) => role.holds.map((held) => `\`${held}\``).join(' and ')).join(', or ')
  return {
    why: `the roster does not show \`${inspector}\` as qualified for any role of this procedure on ${on} (${ways}). The inspector has to be an authorized employee (29 CFR 1910.147(c)(6)(i)(A))`,
    mend: 'Have it inspected by someone who is; or have the roster put right with `people qualify`.'
  }
}
