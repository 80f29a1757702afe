import type { Entry } from './entry.js'
import { amountFacet, type Facet, flagFacet, wordFacet } from './facet.js'
import type { Reading } from './shared-names.js'
import { permissionFacets } from './step-facets.js'

/** What a revision says of itself as a whole: its order, what stays on, what is waived. */
export function headEntries(reading: Reading): readonly Entry[] {
  const { machine, name } = reading
  return [
    {
      topic: 'procedure',
      keys: ['procedure'],
      name: 'Procedure',
      span: null,
      more: 'neither',
      why: { more: '', less: '' },
      facets: new Map<string, Facet>([
        ['procedure', wordFacet('its id', machine.procedure)],
        ['equipment', wordFacet('its equipment', machine.equipment.tag)],
        ['order', wordFacet('the lawful order it follows', machine.order)],
        [
          'no-start-control',
          flagFacet('said to have no start control', machine.noStartControl !== null, 'looser', {
            more: 'The start control is no longer tried before work.',
            less: 'The start control is tried before work.'
          })
        ],
        [
          'review',
          amountFacet('time between inspections', daysOf(machine.review), machine.review, 'looser', {
            more: 'Someone looks less often whether it is followed.',
            less: 'Someone looks more often whether it is followed.'
          })
        ]
      ])
    },
    ...machine.leftOn.map(
      ({ source, span, why, permits }): Entry => ({
        topic: 'left-on',
        keys: [`left-on ${name(source)}`],
        name: `Leaving on \`${source}\``,
        span,
        more: 'looser',
        why: { more: 'All hands-on work goes on with it on.', less: 'It has to be dead before hands-on work.' },
        facets: new Map(permissionFacets(why, permits, reading))
      })
    ),
    ...machine.waivers.map(
      ({ obligation, span, by }): Entry => ({
        topic: 'waiver',
        keys: [`waiver ${obligation}`],
        name: `Waiver of \`${obligation}\``,
        span,
        more: 'looser',
        why: { more: 'The obligation need not hold any more.', less: 'The obligation has to hold.' },
        facets: new Map([['by', wordFacet('who waived it', by)]])
      })
    )
  ]
}

const daysIn = { Y: 365.25, M: 30.4375, W: 7, D: 1 } as const

/** An ISO 8601 duration in days, months and years as they are on average; its hours are left out. */
function daysOf(duration: string): number {
  const [dates = ''] = duration.split('T')
  return [...dates.matchAll(/(\d+(?:\.\d+)?)([YMWD])/g)].reduce(
    (sum, [, count, unit]) => sum + Number(count) * daysIn[unit as keyof typeof daysIn],
    0
  )
}
