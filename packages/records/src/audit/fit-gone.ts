import { actingIn, goneAt } from '../may-do.js'
import { tellEnd } from '../roster-keys.js'
import type { Evidence } from './evidence.js'
import type { Found } from './verdict.js'

/** Entries of an issued run by people who did not work there any more. Getting out is open to everybody. */
export function goneFound({ entries, roster, summary }: Evidence): readonly Found[] {
  if (roster === null || summary?.mode !== 'issued') return []
  return entries.flatMap((entry) =>
    [...new Set(actingIn(entry))].flatMap((id): readonly Found[] => {
      // What such a person signed is told of the key.
      if (entry.signature?.by === id) return []
      const ended = goneAt(roster, id, entry.entered?.by === id ? entry.entered.at : entry.at)
      if (ended === null) return []
      return [
        {
          id: 'not-here-any-more',
          weight: 'fault',
          seq: entry.seq,
          what: `\`${id}\` acted on ${entry.at}, and the key of \`${id}\` ${tellEnd(ended)}.`,
          danger: 'Someone who does not work here any more, or whoever uses that name, put hands to the machine.',
          mend: 'Find out who it was; have the work looked at.'
        }
      ]
    })
  )
}
