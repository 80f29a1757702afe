import type { Machine } from '@lockwright/machine'

/** Everything that could end a string, a tag or a comment of one of the formats. */
export const hostile = `<script>alert('&')</script> "q" \\" ]]> --> */ /* %s %d \\n {x|y} ?> \u0007\u202e end\\`

/** The machine with the hostile words wherever an author writes words. */
export function withHostileWords(machine: Machine): Machine {
  return {
    ...machine,
    title: hostile,
    scope: hostile,
    noStartControl: machine.noStartControl === null ? null : hostile,
    equipment: { tag: hostile, name: hostile, place: hostile },
    points: machine.points.map((point) => ({ ...point, is: hostile, where: hostile })),
    restraints: machine.restraints.map((restraint) => ({ ...restraint, is: hostile })),
    roles: machine.roles.map((role) => ({ ...role, name: hostile })),
    sections: machine.sections.map((section) => ({ ...section, title: hostile })),
    states: machine.states.map((state) => ({
      ...state,
      title: hostile,
      notices: [{ id: 'notice-1', word: 'danger', label: hostile, body: [] }],
      exits: state.exits.map((exit) => (exit.on === 'answer' ? { ...exit, label: hostile } : exit))
    }))
  }
}
