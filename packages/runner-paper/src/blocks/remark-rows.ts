import type { Catalog } from '../catalog.js'
import type { Sheet, SheetStep } from '../sheet/sheet.js'
import { say, stress } from '../text/say.js'
import type { Row } from './block.js'
import type { Names } from './names.js'
import { stopRemarks } from './stop-remarks.js'

/** What must be known before the step is begun: when it is done, by whom, wearing what, with what still on. */
export function remarkRows(sheet: Sheet, step: SheetStep, names: Names, catalog: Catalog): readonly Row[] {
  const { state } = step
  const { steps } = catalog
  const strong = [
    step.onlyFrom.length === 0 ? '' : steps.onlyFrom(names.steps(step.onlyFrom)),
    ...kindWarnings(step, names, catalog),
    state.wear.length === 0 ? '' : steps.wear(names.items(state.wear))
  ]
  const plain = [
    step.backFrom.length === 0 ? '' : steps.backFrom(names.steps(step.backFrom)),
    step.again ? steps.again : '',
    absent(step, names, steps),
    ...kindRemarks(sheet, step, names, catalog),
    [
      state.role === null ? '' : steps.role(names.role(state.role)),
      'with' in state && state.with.length > 0 ? steps.using(names.items(state.with)) : '',
      state.minutes === null ? '' : steps.minutes(state.minutes).replace(/(\d) /, '$1\u00A0')
    ]
      .filter((text) => text !== '')
      .join('. ')
  ]
  return [
    ...strong.filter((text) => text !== '').map((text): Row => ({ kind: 'remark', text: stress(text) })),
    ...plain.filter((text) => text !== '').map((text): Row => ({ kind: 'remark', text: say(text) }))
  ]
}

/** In bold: power that is on while hands are near. */
function kindWarnings({ state, left }: SheetStep, names: Names, catalog: Catalog): readonly string[] {
  const { steps } = catalog
  switch (state.kind) {
    case 'live':
      return [
        steps.powerOn(names.sources(state.near)),
        apart(names.sources(state.apart), steps),
        permit(state.permits, names, steps)
      ]
    case 'measure':
      return [
        state.near.length === 0 ? '' : steps.near(names.sources(state.near)),
        apart(names.sources(state.apart), steps),
        permit(state.permits, names, steps)
      ]
    case 'work':
      return [
        state.leaves.length === 0 ? '' : steps.leaves(names.sources(state.leaves)),
        permit(state.permits, names, steps)
      ]
    case 'stop':
      return left === null ? [] : [stopRemarks(left, names, catalog).join(' ')]
    case 'look':
      return [state.near.length === 0 ? '' : steps.near(names.sources(state.near))]
    default:
      return []
  }
}

function kindRemarks(
  sheet: Sheet,
  { state, number, again, inputs }: SheetStep,
  names: Names,
  { steps }: Catalog
): readonly string[] {
  switch (state.kind) {
    case 'prove':
      return [inputs.some(({ kind }) => kind === 'reading') ? steps.ifLive : '']
    case 'live':
    case 'work':
      return [state.why === null ? '' : steps.why(state.why)]
    case 'measure':
      return [state.from === null ? '' : steps.readFrom(state.from), state.why === null ? '' : steps.why(state.why)]
    case 'identify': {
      const before = sheet.steps.some(
        (each) => each.state.kind === 'identify' && each.state.axis === state.axis && each.number < number
      )
      return [before || again ? steps.knownBefore : '']
    }
    case 'branch': {
      const at = sheet.steps.filter((each) => each.state.kind === 'identify' && each.state.axis === state.axis)
      return [at.length === 0 ? '' : steps.identified(state.axis, names.steps(at.map(({ number }) => number)))]
    }
    case 'lock':
      return [steps.othersLock]
    case 'unlock':
      return [steps.othersUnlock]
    case 'lamp':
      return [steps.lampNoProof]
    case 'signoff':
      return [unlessTold(state.title, state.meaning)]
    case 'stop':
      return [unlessTold(state.title, state.reason), state.tell === null ? '' : steps.tell(state.tell)]
    case 'finish':
      return [steps.finish]
    case 'wait':
      return [unlessTold(state.title, state.why)]
    case 'ask':
      return [unlessTold(state.title, state.question)]
    default:
      return []
  }
}

/** A title names all that the step is about; on a sheet for one generation some of it may not be there. */
function absent({ state }: SheetStep, names: Names, steps: Catalog['steps']): string {
  const missing = state.things.filter((thing) => !names.present(thing)).map(({ id }) => id)
  return missing.length === 0 ? '' : steps.absent(missing.join(', '))
}

/** A title is cut where it would be too long; then the whole of it is told under it. */
function unlessTold(title: string, text: string): string {
  return title.includes(text) ? '' : text
}

function apart(sources: string, steps: Catalog['steps']): string {
  return sources === '' ? '' : steps.apart(sources)
}

function permit(ids: Parameters<Names['permits']>[0], names: Names, steps: Catalog['steps']): string {
  return ids.length === 0 ? '' : steps.permit(names.permits(ids))
}
