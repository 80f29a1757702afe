import type { Machine } from '../../machine.js'
import { xmlAttribute, xmlComment } from '../xml.js'
import { chartOf, type Known } from './chart-of.js'

/**
 * The machine as State Chart XML (W3C Recommendation of 1 September 2015), null data model. Every exit is a transition;
 * the same machine gives the same text. A run can also be stopped by hand in any state, which is not drawn.
 */
export function scxmlOf(machine: Machine): string {
  const { initial, states, finished, stopped } = chartOf(machine)
  // Some interpreters make a function of this name.
  const name = machine.procedure.replace(/[^A-Za-z0-9_]/g, '_').replace(/^(?=\d)/, '_')
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<!-- ${xmlComment(`${machine.procedure}, revision ${machine.revision}: ${machine.title}`)} -->`,
    `<scxml xmlns="http://www.w3.org/2005/07/scxml" version="1.0" datamodel="null" name="${name}" initial="${initial}">`,
    ...states.flatMap(({ id, state, known, moves }) => [
      `  <!-- ${xmlComment(`line ${state.span.line}, ${state.kind}${toldOf(known)}: ${state.title}`)} -->`,
      ...(moves.length === 0
        ? [`  <state id="${id}"/>`]
        : [
            `  <state id="${id}">`,
            ...moves.map(({ event, to }) =>
              event === null
                ? `    <transition target="${to}"/>`
                : `    <transition event="${xmlAttribute(event)}" target="${to}"/>`
            ),
            '  </state>'
          ])
    ]),
    `  <final id="${finished}"/>`,
    `  <final id="${stopped}"/>`,
    '</scxml>',
    ''
  ].join('\n')
}

function toldOf(known: Known): string {
  const values = Object.entries(known).map(([axis, value]) => `${axis} ${value}`)
  return values.length === 0 ? '' : `, ${values.join(', ')}`
}
