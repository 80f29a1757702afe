import { formatQuantity } from '@lockwright/energy'
import type { MachineItem, MachineRestraint, MachineRole, MachineSource } from '@lockwright/machine'
import type { Entry } from './entry.js'
import { amountFacet, type Facet, flagFacet, setFacet, wordFacet } from './facet.js'
import { quantityFacets } from './quantity-facets.js'
import { existence, type Reading } from './shared-names.js'

/** What a revision declares: sources, points, restraints, roles, what is to be gathered, generations. */
export function declaredEntries(reading: Reading): readonly Entry[] {
  const { machine } = reading
  return [
    ...machine.axes.map((axis) => axisEntry(axis, reading)),
    ...machine.sources.map((source) => sourceEntry(source, reading)),
    ...machine.points.map(
      ({ id, span, normal, only }): Entry => ({
        topic: 'point',
        keys: [`point ${reading.name(id)}`],
        name: `Device \`${id}\``,
        span,
        more: 'stricter',
        why: { more: 'One more device is there to be locked.', less: 'One device less is there to be locked.' },
        facets: new Map([
          ['normal', wordFacet('its position in service', normal)],
          ['only', existenceFacet(reading, only)]
        ])
      })
    ),
    ...machine.restraints.map((restraint) => restraintEntry(restraint, reading)),
    ...machine.roles.map((role) => roleEntry(role, reading)),
    ...machine.items.map((item) => itemEntry(item, reading))
  ]
}

/** Ids as members of a set, by the name that both revisions share. */
export function idSet(ids: readonly string[], { name }: Reading): ReadonlyMap<string, string> {
  return new Map(ids.map((id) => [name(id), `\`${id}\``]))
}

function existenceFacet(reading: Reading, only: MachineSource['only']): Facet {
  return setFacet('generations on which it exists', existence(reading, only), 'stricter', {
    more: 'It is reckoned with on one more generation.',
    less: 'It is left out on a generation on which it was reckoned with.'
  })
}

function axisEntry({ id, span, values }: Reading['machine']['axes'][number], { name, value }: Reading): Entry {
  const why = { more: 'Every way of every generation is proven by itself.', less: 'It is not told apart any more.' }
  const members = new Map(values.map((one) => [value(id, one.id), `\`${one.id}\``]))
  return {
    topic: 'hardware',
    keys: [`axis ${name(id)}`],
    name: `Generations by \`${id}\``,
    span,
    more: 'neither',
    why,
    facets: new Map([['values', setFacet('generations that are covered', members, 'neither', why)]])
  }
}

const storeRank = { none: 0, 'can-be-let-out': 1, 'always-held': 2 } as const
export const categoryRank = { II: 2, III: 3, IV: 4 } as const

function sourceEntry(source: MachineSource, reading: Reading): Entry {
  return {
    topic: 'source',
    keys: [`source ${reading.name(source.id)}`],
    name: `Source \`${source.id}\``,
    span: source.span,
    more: 'stricter',
    why: {
      more: 'One more energy has to be dead and proven before hands-on work.',
      less: 'Nothing asks any more that this energy be dead before hands-on work.'
    },
    facets: new Map<string, Facet>([
      ['kind', wordFacet('its kind', source.kind)],
      [
        'at',
        setFacet('devices that cut it off', idSet(source.at, reading), 'stricter', {
          more: 'It counts as isolated only with one more device locked.',
          less: 'It counts as isolated with a device unlocked that had to be locked before.'
        })
      ],
      [
        'fed-by',
        setFacet('sources that can feed it', idSet(source.fedBy, reading), 'stricter', {
          more: 'It counts as isolated only with one more source dead.',
          less: 'It counts as isolated although a source is on that was said to feed it.'
        })
      ],
      ['unfed', wordFacet('said to be fed by nothing', source.unfed === null ? 'no' : 'yes')],
      [
        'rebuilds',
        flagFacet('comes back by itself', source.rebuilds, 'stricter', {
          more: 'It has to be restrained for as long as work lasts.',
          less: 'It need not be restrained any more while work lasts.'
        })
      ],
      [
        'guarded',
        flagFacet('behind a fixed barrier', source.guarded !== null, 'looser', {
          more: 'It may now be left on during work.',
          less: 'It may no longer be left on for being out of reach.'
        })
      ],
      [
        'store',
        amountFacet('stored energy', storeRank[source.store], source.store.replaceAll('-', ' '), 'stricter', {
          more: 'Its energy stays behind locks until it is let out or held.',
          less: 'Locks alone now count as enough.'
        })
      ],
      ['only', existenceFacet(reading, source.only)],
      [
        'conductors',
        amountFacet('conductors to be tested', source.conductors.length, String(source.conductors.length), 'stricter', {
          more: 'More pairs of conductors are tested.',
          less: 'Fewer pairs of conductors are tested.'
        })
      ],
      [
        'category',
        amountFacet(
          'category of the circuit',
          categoryRank[source.category ?? 'III'],
          source.category ?? 'III',
          'stricter',
          {
            more: 'A tester of a higher category is needed.',
            less: 'A tester of a lower category is let near it.'
          }
        )
      ],
      ...quantityFacets(source)
    ])
  }
}

function restraintEntry({ id, span, kind, holds, needsPower, only }: MachineRestraint, reading: Reading): Entry {
  return {
    topic: 'restraint',
    keys: [`restraint ${reading.name(id)}`],
    name: `Restraint \`${id}\``,
    span,
    more: 'stricter',
    why: { more: 'One more device holds energy back.', less: 'One device less holds energy back.' },
    facets: new Map<string, Facet>([
      ['kind', wordFacet('its kind', kind)],
      [
        'holds',
        setFacet('sources that it is trusted to hold', idSet(holds, reading), 'looser', {
          more: 'A source counts as still because this device is on.',
          less: 'A source has to be made still in another way.'
        })
      ],
      [
        'needs-power',
        flagFacet('comes out only under power', needsPower !== null, 'looser', {
          more: 'Energy may come back with it still on.',
          less: 'It has to be off before energy comes back.'
        })
      ],
      ['only', existenceFacet(reading, only)]
    ])
  }
}

function roleEntry({ id, span, holds, electrical }: MachineRole, { name }: Reading): Entry {
  return {
    topic: 'role',
    keys: [`role ${name(id)}`],
    name: `Role \`${id}\``,
    span,
    more: 'neither',
    why: {
      more: 'What it is asked for is compared step by step.',
      less: 'What it was asked for is compared step by step.'
    },
    facets: new Map<string, Facet>([
      [
        'holds',
        setFacet('qualifications', new Map(holds.map((one) => [one, `\`${one}\``])), 'stricter', {
          more: 'Whoever acts in this role has to hold one more.',
          less: 'Someone who does not hold it may act in this role.'
        })
      ],
      [
        'electrical',
        flagFacet('qualified for electrical work', electrical, 'stricter', {
          more: 'The role may prove electrical energy dead.',
          less: 'The role is no longer said to be qualified for electrical work.'
        })
      ]
    ])
  }
}

const gloveRank = { '00': 0, '0': 1, '1': 2, '2': 3, '3': 4, '4': 5 } as const

function itemEntry(item: MachineItem, { name }: Reading): Entry {
  const { rated, category, glove, range, measures } = item
  const worn = item.kind === 'wear'
  const rating = { more: 'It has to stand more.', less: 'One that stands less will do.' }
  return {
    topic: 'equipment',
    keys: [`${item.kind} ${name(item.id)}`],
    name: `${worn ? 'Protective equipment' : item.kind === 'tool' ? 'Tool' : 'Part'} \`${item.id}\``,
    span: item.span,
    more: worn ? 'stricter' : 'neither',
    why: worn
      ? { more: 'It is at hand when it is needed.', less: 'Nobody is asked to have it at hand.' }
      : { more: 'It is gathered before the locks are hung.', less: 'It is not gathered any more.' },
    facets: new Map<string, Facet>([
      ['measures', wordFacet('what it measures', measures ?? 'nothing')],
      [
        'rated',
        amountFacet('rating', rated?.si ?? 0, rated === null ? 'none' : formatQuantity(rated), 'stricter', rating)
      ],
      [
        'category',
        amountFacet('category', category === null ? 0 : categoryRank[category], category ?? 'none', 'stricter', rating)
      ],
      ['glove', amountFacet('class', glove === null ? -1 : gloveRank[glove], glove ?? 'none', 'stricter', rating)],
      [
        'range',
        range === null
          ? wordFacet('range', 'none')
          : wordFacet(
              'range',
              `${formatQuantity(range.low)} to ${formatQuantity(range.high)}`,
              `${range.low.si} to ${range.high.si} ${range.low.dimension}`
            )
      ],
      [
        'calibration',
        flagFacet('in calibration', item.needsCalibration, 'stricter', {
          more: 'It is used only while in calibration.',
          less: 'It may be used out of calibration.'
        })
      ]
    ])
  }
}
