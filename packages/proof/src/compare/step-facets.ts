import { formatDuration, parseQuantity } from '@lockwright/energy'
import type { Input, Limits, Machine, PermitId, State } from '@lockwright/machine'
import { idSet } from './declared-entries.js'
import { amountFacet, type Facet, flagFacet, setFacet, wordFacet } from './facet.js'
import type { Reading } from './shared-names.js'

type Named = readonly (readonly [string, Facet])[]

/** Who does the step, and what they wear. */
export function crewFacets(state: State, reading: Reading): Named {
  const role = reading.machine.roles.find(({ id }) => id === state.role)
  const holds = [...(role?.holds ?? []), ...(role?.electrical === true ? ['electrical work'] : [])]
  return [
    [
      'role',
      {
        name: 'who does it',
        more: 'stricter',
        why: { more: 'More is asked of whoever does it.', less: 'Less is asked of whoever does it.' },
        value: {
          is: 'role',
          id: state.role === null ? null : reading.name(state.role),
          holds: new Set(holds),
          told: state.role === null ? 'anyone' : `\`${state.role}\``
        }
      }
    ],
    [
      'wear',
      setFacet('what is worn', idSet(state.wear, reading), 'stricter', {
        more: 'One more piece of protective equipment is worn.',
        less: 'A piece of protective equipment is not worn any more.'
      })
    ]
  ]
}

/** The instruments and tools that a step is done with. */
export function toolFacets(items: readonly string[], reading: Reading): Named {
  const why = 'What the tool has to stand and show is compared where it is declared.'
  return [['with', setFacet('what it is done with', idSet(items, reading), 'neither', { more: why, less: why })]]
}

/** Why something stays on, and who allowed it: `why` and `permit`. */
export function permissionFacets(why: string | null, permits: readonly PermitId[], reading: Reading): Named {
  return [
    [
      'why',
      flagFacet('reason given', why !== null, 'stricter', {
        more: 'It is said why it cannot be done dead.',
        less: 'It is not said any more why it cannot be done dead.'
      })
    ],
    [
      'permits',
      setFacet('sign-offs that allow it', permitSet(reading, permits), 'stricter', {
        more: 'One more signature is needed.',
        less: 'It may be done without a signature that was needed before.'
      })
    ]
  ]
}

/** Permits by the role that signs, for the sign-off itself may have been moved or renamed. */
export function permitSet(
  { machine, name }: { readonly machine: Machine; readonly name: (id: string) => string },
  permits: readonly PermitId[]
): ReadonlyMap<string, string> {
  const counts = new Map<string, number>()
  return new Map(
    permits.map((permit) => {
      const role = machine.states.find((state) => state.kind === 'signoff' && state.permit === permit)?.role ?? ''
      const count = (counts.get(role) ?? 0) + 1
      counts.set(role, count)
      return [`${name(role)} ${count}`, `\`${permit}\``]
    })
  )
}

export function nearFacets(apart: readonly string[], reading: Reading): Named {
  return [
    [
      'apart',
      setFacet('sources that stay on out of reach', idSet(apart, reading), 'looser', {
        more: 'One more source need not be dead.',
        less: 'A source has to be dead that could stay on before.'
      })
    ]
  ]
}

export function waitFacet(inputs: readonly Input[]): Named {
  const seconds = inputs.reduce((sum, input) => (input.kind === 'wait' ? sum + input.seconds : sum), 0)
  return [
    [
      'wait',
      amountFacet('wait', seconds, seconds === 0 ? 'none' : formatDuration(seconds), 'stricter', {
        more: 'More time passes before what follows.',
        less: 'Less time passes before what follows.'
      })
    ]
  ]
}

export function boxFacet(inputs: readonly Input[]): Named {
  const boxes = inputs.filter((input) => input.kind === 'box' && input.of === 'item').length
  return [
    [
      'boxes',
      amountFacet('boxes to tick', boxes, String(boxes), 'stricter', {
        more: 'More has to be ticked one by one.',
        less: 'Less has to be ticked one by one.'
      })
    ]
  ]
}

/** The limits of a reading, in the SI unit where the unit is known. */
export function limitFacets({ min, max, below }: Limits, unit: string): Named {
  const wider = { more: 'Readings pass that did not.', less: 'Readings do not pass any more that did.' }
  const higher = { more: wider.less, less: wider.more }
  return [
    ['min', limitFacet('lowest reading that passes', min, unit, Number.NEGATIVE_INFINITY, 'stricter', higher)],
    ['max', limitFacet('highest reading that passes', max, unit, Number.POSITIVE_INFINITY, 'looser', wider)],
    ['below', limitFacet('level that it has to be below', below, unit, Number.POSITIVE_INFINITY, 'looser', wider)]
  ]
}

function limitFacet(
  name: string,
  limit: number | null,
  unit: string,
  open: number,
  more: Facet['more'],
  why: Facet['why']
): Facet {
  const known = parseQuantity(`${limit ?? 0} ${unit}`)
  const scale = known.ok ? `${known.value.dimension} ${known.value.reference ?? ''}` : unit
  if (limit === null) return amountFacet(name, open, 'any', more, why, scale)
  return amountFacet(name, known.ok ? known.value.si : limit, `${limit} ${unit}`, more, why, scale)
}

/** How a source is proven dead. */
export function proofFacets(state: Extract<State, { kind: 'prove' }>, inputs: readonly Input[]): Named {
  const readings = inputs.filter((input) => input.kind === 'reading')
  const [first] = readings
  return [
    [
      'by',
      flagFacet('shown by an instrument', state.by === 'instrument', 'stricter', {
        more: 'A reading is taken.',
        less: 'Trying is taken for a reading.'
      })
    ],
    [
      'known',
      flagFacet('tester proven on a known source', state.known !== null, 'stricter', {
        more: 'A tester that shows nothing any more is found out.',
        less: 'A tester that shows nothing any more is not found out.'
      })
    ],
    [
      'readings',
      amountFacet('readings', readings.length, String(readings.length), 'stricter', {
        more: 'More is tested.',
        less: 'Less is tested.'
      })
    ],
    ...(first?.kind === 'reading' ? limitFacets(first.limits, first.unit) : [])
  ]
}

export function expectFacet(expect: string): Named {
  return [['expect', wordFacet('what the indicator shows', expect)]]
}
