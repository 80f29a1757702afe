import type { State } from '../../state.js'
import { all, any, type Expression, not, where } from './expression.js'
import { liveConditions, restOfMachine } from './live.js'
import type { LedgerObligation } from './obligations.js'
import { Sheet } from './sheet.js'
import { permitsAsked } from './spelling.js'
import type { World } from './world.js'

/** What one step looks at and does, in the order of the meaning page: needs, then effects, then settling. */
export interface Meaning {
  /** Some of what the step names exists on this generation; else it is passed by. */
  readonly acts: Expression
  readonly statements: readonly string[]
  readonly asks: readonly LedgerObligation[]
}

/** The row of the meaning page for the step, with the names of this machine put in. */
export function meaningOf(world: World, state: State): Meaning {
  const sheet = new Sheet(world)
  const acts = write(sheet, state)
  return { acts, statements: sheet.statements, asks: [...sheet.asks] }
}

function write(sheet: Sheet, state: State): Expression {
  const { world } = sheet
  const { names, present, electrical } = world
  switch (state.kind) {
    case 'gather':
    case 'notice':
    case 'ask':
    case 'wait':
    case 'timer':
    case 'back':
    case 'identify':
      return 'true'
    case 'look':
      return anyPresent(world, state.near)
    case 'lamp':
      return anyPresent(world, state.sources)
    case 'notify':
      sheet.set('is_told', 'true')
      return 'true'
    case 'operate':
      sheet.must('operate-closed', 'is_inspected && is_clear')
      sheet.set('is_stopped', 'false')
      sheet.rewindUnfed()
      sheet.settle()
      return 'true'
    case 'shutdown':
      sheet.set('is_stopped', 'true')
      return 'true'
    case 'isolate':
    case 'lock': {
      sheet.must('control-order', 'is_told && is_stopped')
      const locking = state.kind === 'lock'
      for (const id of state.points) {
        if (!locking) sheet.must('device-state', where(present(id), `${names.point(id)} != locked`))
      }
      for (const id of state.points) {
        sheet.setIf(present(id), names.point(id), locking ? 'locked' : 'off')
        if (locking) sheet.statements.push(`remember(${names.wasLocked(id)}, ${present(id)});`)
      }
      sheet.untry()
      if (locking) sheet.endPermits()
      sheet.settle()
      return anyPresent(world, state.points)
    }
    case 'relieve':
      // The sources take their turns as written: settled after each.
      for (const id of state.sources) {
        sheet.must('relieve-isolated', where(present(id), names.source(electrical ? 'cut' : 'isolated', id)))
        if (world.source(id).store === 'can-be-let-out') sheet.set(names.source('held', id), 'false')
        sheet.settle()
      }
      return anyPresent(world, state.sources)
    case 'restrain':
      restrain(sheet, state.restraints)
      return anyPresent(world, state.restraints)
    case 'prove':
      for (const id of state.sources) sheet.must('void-proof', where(present(id), names.source('still', id)))
      for (const id of state.sources) sheet.setIf(present(id), names.source('proven', id), 'true')
      sheet.openUp(state.sources)
      sheet.settle()
      return anyPresent(world, state.sources)
    case 'tryout':
      sheet.must('tryout-clear', 'is_clear')
      sheet.must('tryout-clear', any(world.machine.points.map(({ id }) => all([present(id), isLocked(world, id)]))))
      sheet.set('is_tried', 'true')
      return 'true'
    case 'work':
      work(sheet, state)
      return 'true'
    case 'live':
    case 'measure': {
      if (state.near.length === 0) return 'true'
      for (const holds of liveConditions(world, state)) sheet.must('live-permitted', holds)
      sheet.openUp(restOfMachine(world, state).near)
      sheet.set('is_told', 'false')
      return anyPresent(world, state.near)
    }
    case 'inspect':
      sheet.set('is_inspected', 'true')
      for (const { id } of world.machine.sources) sheet.set(names.source('touched', id), 'false')
      if (electrical) sheet.set('is_told', 'false')
      return 'true'
    case 'clear':
      sheet.set('is_clear', 'true')
      return 'true'
    case 'remove':
      remove(sheet, state.restraints)
      return anyPresent(world, state.restraints)
    case 'unlock':
    case 'energize':
      powerUp(sheet, state.kind === 'unlock', state.points)
      return anyPresent(world, state.points)
    case 'signoff':
      if (permitsAsked(world.machine).includes(state.permit)) sheet.set(names.permit(state.permit), 'true')
      return 'true'
    case 'branch':
      sheet.must('hardware-known', `${names.axis(state.axis)} != unknown`)
      return 'true'
    case 'finish':
      for (const { id, normal } of world.machine.points) {
        sheet.must('all-returned', where(present(id), `${names.point(id)} == ${normal}`))
      }
      for (const { id } of world.machine.restraints) {
        sheet.must('all-returned', where(present(id), not(names.restraint(id))))
      }
      sheet.must('all-returned', 'is_inspected && is_clear')
      return 'true'
    case 'stop': {
      const still = world.machine.sources.map(({ id }) => where(names.source('touched', id), names.source('still', id)))
      sheet.must('stop-safe', any(['is_inspected', all(still)]))
      return 'true'
    }
  }
}

function anyPresent(world: World, ids: readonly string[]): Expression {
  return ids.length === 0 ? 'true' : any(ids.map(world.present))
}

function isLocked({ names }: World, point: string): Expression {
  return `${names.point(point)} == locked`
}

function restrain(sheet: Sheet, ids: readonly string[]): void {
  const { world } = sheet
  const { names, present, machine } = world
  sheet.must('control-order', 'is_stopped')
  for (const id of ids) {
    const { holds, kind } = world.restraint(id)
    const open = machine.points.map((point) =>
      all([present(point.id), not(isLocked(world, point.id)), any(holds.map((held) => world.feeds(point.id, held)))])
    )
    sheet.must('restrain-locked', where(present(id), not(any(open))))
    if (kind !== 'earth' && kind !== 'short') continue
    for (const held of holds) {
      sheet.must('ground-after-proof', where(all([present(id), present(held)]), names.source('proven', held)))
    }
  }
  for (const id of ids) {
    sheet.setIf(present(id), names.restraint(id), 'true')
    sheet.openUp(world.restraint(id).holds, present(id))
  }
  sheet.settle()
}

function remove(sheet: Sheet, ids: readonly string[]): void {
  const { world } = sheet
  const { names, present } = world
  for (const id of ids) {
    if (['earth', 'short', 'cover'].includes(world.restraint(id).kind)) continue
    sheet.must('remove-clear', where(present(id), 'is_clear'))
  }
  for (const id of ids) {
    const { holds } = world.restraint(id)
    sheet.setIf(present(id), names.restraint(id), 'false')
    for (const held of holds) {
      if (world.source(held).rebuilds) sheet.setIf(present(id), names.source('proven', held), 'false')
    }
    sheet.openUp(holds, present(id))
  }
  sheet.settle()
}

function work(sheet: Sheet, state: Extract<State, { kind: 'work' }>): void {
  const { world } = sheet
  const { names, present, machine } = world
  const permits = new Map<string, readonly string[]>(state.leaves.map((id) => [id, state.permits]))
  for (const left of machine.leftOn) permits.set(left.source, [...(permits.get(left.source) ?? []), ...left.permits])
  const touched = machine.sources.map(({ id }) => id).filter((id) => !permits.has(id))
  for (const id of touched) {
    const is = (word: string): Expression => names.source(word, id)
    // A rung is looked at only where the one before it holds. Which of the first two it is depends on the way here.
    sheet.must('work-isolated', where(present(id), any([is('isolated'), is('reopened')])))
    sheet.must('relock-after-test', where(present(id), any([is('isolated'), not(is('reopened'))])))
    sheet.must('work-released', where(all([present(id), is('isolated')]), is('still')))
    sheet.must('rebuild-restrained', where(all([present(id), is('still')]), is('dead')))
    sheet.must('work-proven', where(all([present(id), is('dead')]), is('proven')))
  }
  sheet.must('tryout-done', 'is_tried')
  for (const [id, asked] of permits) {
    for (const permit of asked) sheet.must('left-on', where(present(id), names.permit(permit)))
  }
  sheet.openUp(touched)
  sheet.set('is_told', 'false')
}

function powerUp(sheet: Sheet, unlocking: boolean, points: readonly string[]): void {
  const { world } = sheet
  const { names, present, electrical, machine } = world
  const restraints = machine.restraints.filter(({ needsPower }) => needsPower === null)
  for (const id of points) {
    const standing = `${names.point(id)} == ${unlocking ? 'locked' : 'off'}`
    sheet.must('device-state', where(present(id), standing))
  }
  sheet.must('inspected-before-energy', 'is_inspected')
  sheet.must('clear-before-energy', 'is_clear')
  if (!unlocking || electrical) sheet.must('told-before-start', 'is_told')
  for (const id of points) {
    const inTheWay = restraints.map((restraint) =>
      all([
        present(restraint.id),
        names.restraint(restraint.id),
        any(restraint.holds.map((held) => world.feeds(id, held)))
      ])
    )
    sheet.must('restraints-off', where(present(id), not(any(inTheWay))))
  }
  for (const id of points) sheet.setIf(present(id), names.point(id), unlocking ? 'off' : 'on')
  sheet.endPermits()
  if (unlocking) {
    sheet.set(electrical ? 'is_clear' : 'is_told', 'false')
    sheet.untry()
  } else {
    sheet.set('is_stopped', 'false')
    sheet.rewindUnfed()
  }
  sheet.settle()
}
