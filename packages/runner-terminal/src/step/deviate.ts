import { stateOf } from '@lockwright/machine'
import { type Interpreted, refuse, type Sitting } from './interpreted.js'

/** `REASON`, or `ROLE: REASON` where the step itself names no role: done differently, and whoever says so signs it. */
export function deviate(rest: string, { machine, snapshot, person }: Sitting): Interpreted {
  const state = stateOf(machine, snapshot.state)
  const [, name = '', behind = ''] = /^([^\s:]+): ?(.*)$/.exec(rest) ?? []
  const named = machine.roles.find(({ id }) => id === name)
  const reason = named === undefined ? rest : behind
  const [only, ...others] = machine.roles
  const role = named?.id ?? state.role ?? (others.length === 0 ? only?.id : undefined)
  if (role === undefined) {
    const roles = machine.roles.map(({ id }) => id).join(', ')
    return roles === ''
      ? refuse('The procedure names nobody who may decide to do a step differently.', 'Do it as written, or stop.')
      : refuse('It is not said in which role.', `Type \`deviate ROLE: REASON\`; the roles are ${roles}.`)
  }
  if (reason === '') return refuse('It is not said what was done differently and why.', 'Type it behind the role.')
  return {
    kind: 'event',
    event: { kind: 'deviation', state: state.id, reason, role, by: person },
    last: null,
    signer: null
  }
}
