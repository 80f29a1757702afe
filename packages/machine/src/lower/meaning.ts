import type { FrontMatter, RestraintId, SourceId, Step } from '@lockwright/language'
import type { Condition, Effect, Need, Turn } from '../condition.js'
import type { PermitId } from '../ids.js'
import type { Context } from './context.js'
import { deadAndProven, liveNeeds } from './live-needs.js'
import { need, point, restraint, source } from './need.js'

function flag(name: 'stopped' | 'told' | 'tried' | 'inspected' | 'clear', to: boolean): Effect {
  return { does: 'set', flag: name, to }
}

const openedUp: readonly Effect[] = [flag('inspected', false), flag('clear', false)]
/**
 * What a step needs and does: the table of the meaning page, one case a row.
 * Most steps are one turn; only relieve takes its sources in turn, as written.
 */
export function turnsOf(step: Step, context: Context): readonly Turn[] {
  const { head } = context
  const electrical = head.order === 'electrical'
  switch (step.kind) {
    case 'look':
    case 'lamp':
    case 'wait':
      return []
    case 'notify':
      return [{ needs: [], does: [flag('told', true)] }]
    case 'operate':
      return [
        {
          needs: [need('operate-closed', { is: 'inspected' }), need('operate-closed', { is: 'clear' })],
          does: [flag('stopped', false), { does: 'rewind-unfed' }]
        }
      ]
    case 'shutdown':
      return [{ needs: [], does: [flag('stopped', true)] }]
    case 'isolate':
      return [
        {
          needs: [
            ...toldAndStopped(),
            ...step.at.map((at) => need('device-state', { is: 'not-locked', point: at }, point(at)))
          ],
          does: [...step.at.map((at): Effect => ({ does: 'move', point: at, to: 'off' })), flag('tried', false)]
        }
      ]
    case 'lock':
      return [
        {
          needs: toldAndStopped(),
          does: [
            ...step.at.map((at): Effect => ({ does: 'move', point: at, to: 'locked' })),
            flag('tried', false),
            { does: 'end-permits' }
          ]
        }
      ]
    case 'relieve':
      return step.of.map((of) => ({
        needs: [need('relieve-isolated', { is: electrical ? 'cut' : 'isolated', source: of }, source(of))],
        does: [{ does: 'let-out', source: of }]
      }))
    case 'restrain':
      return [restrain(step.restraints, head)]
    case 'tryout':
      return [
        {
          needs: [need('tryout-clear', { is: 'clear' }), need('tryout-clear', { is: 'some-point-locked' })],
          does: [flag('tried', true)]
        }
      ]
    case 'prove':
      return [
        {
          needs: step.of.map((of) => need('void-proof', { is: 'still', source: of }, source(of))),
          does: [
            ...step.of.map((of): Effect => ({ does: 'verify', source: of })),
            { does: 'touch', sources: step.of, handling: null },
            ...openedUp
          ]
        }
      ]
    case 'work':
      return [work(step, context)]
    case 'live':
      return [
        {
          needs: liveNeeds(step, step.near, context),
          does: [
            { does: 'touch', sources: context.feeding.withFed(step.near), handling: null },
            flag('told', false),
            ...openedUp
          ]
        }
      ]
    case 'measure': {
      if (step.near.length === 0) return []
      const near = context.feeding.withFed(step.near)
      const allDead: Condition = { is: 'all', of: near.flatMap(deadAndProven) }
      return [
        {
          needs: liveNeeds(step, step.near, context).map((asked) => ({
            ...asked,
            rungs: asked.rungs.map(({ obligation, condition }) => ({
              obligation,
              condition: { is: 'any', of: [allDead, condition] } satisfies Condition
            }))
          })),
          does: [{ does: 'touch', sources: near, handling: null }, flag('told', false), ...openedUp]
        }
      ]
    }
    case 'inspect':
      return [
        {
          needs: [],
          does: [flag('inspected', true), { does: 'untouch' }, ...(electrical ? [flag('told', false)] : [])]
        }
      ]
    case 'clear':
      return [{ needs: [], does: [flag('clear', true)] }]
    case 'remove':
      return [remove(step.restraints, head)]
    case 'unlock':
      return [
        {
          needs: [
            ...step.at.map((at) => need('device-state', { is: 'locked', point: at }, point(at))),
            ...closedUp(),
            ...(electrical ? [need('told-before-start', { is: 'told' })] : []),
            ...step.at.map((at) => need('restraints-off', { is: 'unrestrained', point: at }, point(at)))
          ],
          does: [
            ...step.at.map((at): Effect => ({ does: 'move', point: at, to: 'off' })),
            ...(electrical ? [flag('clear', false)] : [flag('told', false)]),
            flag('tried', false),
            { does: 'end-permits' }
          ]
        }
      ]
    case 'energize':
      return [
        {
          needs: [
            ...step.at.map((at) => need('device-state', { is: 'off', point: at }, point(at))),
            ...closedUp(),
            need('told-before-start', { is: 'told' }),
            ...step.at.map((at) => need('restraints-off', { is: 'unrestrained', point: at }, point(at)))
          ],
          does: [
            ...step.at.map((at): Effect => ({ does: 'move', point: at, to: 'on' })),
            flag('stopped', false),
            { does: 'end-permits' },
            { does: 'rewind-unfed' }
          ]
        }
      ]
    case 'signoff':
      return [{ needs: [], does: [{ does: 'permit', permit: step.id as string as PermitId }] }]
    case 'identify':
      return [{ needs: [], does: [{ does: 'know', axis: step.axis }] }]
    case 'finish':
      return [finishTurn(head)]
    case 'stop':
      return [
        { needs: [need('stop-safe', { is: 'any', of: [{ is: 'inspected' }, { is: 'touched-still' }] })], does: [] }
      ]
  }
}

export function finishTurn(head: FrontMatter): Turn {
  return {
    needs: [
      ...head.points.map(({ id }) => need('all-returned', { is: 'normal', point: id }, point(id))),
      ...head.restraints.map(({ id }) => need('all-returned', { is: 'restraint-off', restraint: id }, restraint(id))),
      need('all-returned', { is: 'inspected' }),
      need('all-returned', { is: 'clear' })
    ],
    does: []
  }
}

export function branchTurn(axis: FrontMatter['axes'][number]['id']): Turn {
  return { needs: [need('hardware-known', { is: 'known', axis }, { kind: 'axis', id: axis })], does: [] }
}

function toldAndStopped(): readonly Need[] {
  return [need('control-order', { is: 'told' }), need('control-order', { is: 'stopped' })]
}

function closedUp(): readonly Need[] {
  return [need('inspected-before-energy', { is: 'inspected' }), need('clear-before-energy', { is: 'clear' })]
}

function declared(head: FrontMatter, ids: readonly RestraintId[]): FrontMatter['restraints'] {
  return ids.flatMap((id) => head.restraints.filter((candidate) => candidate.id === id))
}

function restrain(ids: readonly RestraintId[], head: FrontMatter): Turn {
  const restraints = declared(head, ids)
  return {
    needs: [
      need('control-order', { is: 'stopped' }),
      ...restraints.map(({ id }) => need('restrain-locked', { is: 'feeds-locked', restraint: id }, restraint(id))),
      ...restraints
        .filter(({ kind }) => kind === 'earth' || kind === 'short')
        .flatMap(({ id, holds }) =>
          holds.map((held) => need('ground-after-proof', { is: 'proven', source: held }, source(held), [restraint(id)]))
        )
    ],
    does: [
      ...restraints.flatMap(({ id, holds }): Effect[] => [
        { does: 'put', restraint: id, to: 'on' },
        { does: 'touch', sources: holds, handling: id }
      ]),
      ...openedUp
    ]
  }
}

function remove(ids: readonly RestraintId[], head: FrontMatter): Turn {
  const restraints = declared(head, ids)
  const rebuilds = new Set(head.sources.filter((candidate) => candidate.rebuilds).map(({ id }) => id))
  return {
    needs: restraints
      .filter(({ kind }) => kind !== 'earth' && kind !== 'short' && kind !== 'cover')
      .map(({ id }) => need('remove-clear', { is: 'clear' }, restraint(id))),
    does: [
      ...restraints.flatMap(({ id, holds }): Effect[] => [
        { does: 'put', restraint: id, to: 'off' },
        ...holds
          .filter((held) => rebuilds.has(held))
          .map((held): Effect => ({ does: 'unverify', source: held, freedBy: id })),
        { does: 'touch', sources: holds, handling: id }
      ]),
      ...openedUp
    ]
  }
}

function work(step: Extract<Step, { kind: 'work' }>, { head }: Context): Turn {
  const leftOn = new Map(head.leftOn.map((left) => [left.source, left.permits]))
  const on = new Set<SourceId>([...step.leaves, ...leftOn.keys()])
  const touched = head.sources.map(({ id }) => id).filter((id) => !on.has(id))
  const permitsFor = (id: SourceId): readonly PermitId[] =>
    [
      ...(step.leaves.includes(id) ? step.permits : []),
      ...(leftOn.get(id) ?? [])
    ] as readonly string[] as readonly PermitId[]
  return {
    needs: [
      ...touched.map(
        (id): Need => ({
          about: source(id),
          present: [source(id)],
          rungs: [
            { obligation: 'work-isolated', condition: { is: 'isolated', source: id } },
            { obligation: 'work-released', condition: { is: 'still', source: id } },
            { obligation: 'rebuild-restrained', condition: { is: 'dead', source: id } },
            { obligation: 'work-proven', condition: { is: 'proven', source: id } }
          ]
        })
      ),
      need('tryout-done', { is: 'tried' }),
      ...[...on].flatMap((id) => permitsFor(id).map((permit) => need('left-on', { is: 'given', permit }, source(id))))
    ],
    does: [{ does: 'touch', sources: touched, handling: null }, flag('told', false), ...openedUp]
  }
}
