import { askedInputs, type Event, type Machine, type Snapshot, stateOf } from '@lockwright/machine'

/** What any of these people could try next, right or wrong; each has one padlock for each device. */
export function triesAt(machine: Machine, snapshot: Snapshot, people: readonly string[], at: string): readonly Event[] {
  const points = machine.points.map(({ id }) => id as string)
  const tries = people.flatMap((by): readonly object[] => [
    ...stepTries(machine, snapshot, by, people, at),
    ...subsets(points).map((some) => ({ kind: 'joined', locks: padlocks(by, some), by })),
    { kind: 'left', by },
    ...people.flatMap((to) =>
      subsets(points).map((some) => ({ kind: 'handed-over', to, locks: padlocks(to, some), by }))
    ),
    { kind: 'paused', reason: 'Dinner', by },
    { kind: 'resumed', locksOn: true, by },
    { kind: 'resumed', locksOn: false, by },
    ...machine.sources.flatMap(({ id }) =>
      [0, 9].map((value) => ({ kind: 'proven-again', source: id, value, typed: `${value} bar`, by }))
    )
  ])
  return tries.map((one) => ({ at, ...one }) as Event)
}

function stepTries(
  machine: Machine,
  snapshot: Snapshot,
  by: string,
  people: readonly string[],
  at: string
): readonly object[] {
  if (snapshot.status === 'new') return [{ kind: 'opened', mode: 'rehearsal', by }]
  const state = stateOf(machine, snapshot.state)
  const inputs = askedInputs(machine, snapshot.ledger, state)
  const ticks = {
    acknowledged: state.notices.map(({ id }) => id),
    boxes: inputs.flatMap((input) => (input.kind === 'box' ? [input.id] : []))
  }
  const here = { state: state.id, by }
  const deadlines = Object.values(snapshot.deadlines).map((end) => Date.parse(end) + 1000)
  const late = new Date(Math.max(Date.parse(at), ...deadlines)).toISOString()
  return [
    { kind: 'done', ...here, ...ticks },
    { kind: 'late', ...here, at: late },
    ...(state.kind === 'finish' ? [{ kind: 'finished', ...here, ...ticks }] : []),
    ...inputs.flatMap((input): readonly object[] => {
      switch (input.kind) {
        case 'lock':
          return [{ kind: 'lock-hung', ...here, point: input.point, lock: `${by}-${input.point}` }]
        case 'unlock':
          return people.flatMap((owner) => [
            { kind: 'lock-removed', ...here, point: input.point, owner },
            { kind: 'lock-removed', ...here, point: input.point, owner, absent: { ...absent, toldBeforeReturn: ' ' } },
            { kind: 'lock-removed', ...here, point: input.point, owner, absent }
          ])
        case 'reading':
          return [0, 9].map((value) => ({ kind: 'reading', ...here, input: input.id, value, typed: `${value} bar` }))
        default:
          return []
      }
    })
  ]
}

const absent = { verifiedAway: 'Gate log', triedToReach: 'Called twice', toldBeforeReturn: 'Shift lead tells them' }

const padlocks = (person: string, points: readonly string[]): readonly object[] =>
  points.map((point) => ({ point, lock: `${person}-${point}` }))

function subsets(points: readonly string[]): readonly (readonly string[])[] {
  const [first, ...others] = points
  if (first === undefined) return [[]]
  const without = subsets(others)
  return [...without, ...without.map((some) => [first, ...some])]
}
