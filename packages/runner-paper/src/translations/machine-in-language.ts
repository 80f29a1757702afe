import type { Content } from '@lockwright/language'
import type { Exit, Input, MachineItem, MachineSource, State } from '@lockwright/machine'
import type { ProvedMachine } from '@lockwright/proof'
import type { Catalog } from '../catalog.js'
import { englishMade } from '../catalogs/english-made.js'
import { type Phrase, rephrase } from './rephrase.js'
import { titleInLanguage } from './title-in-language.js'

/**
 * The same machine with everything that the compiler worded in English (titles, what a tool has to be, the ends of a
 * reading, yes and no) worded as the catalog says, and its decimals written as there. Only texts change: the
 * steps, the ids and the obligations are those that were proved.
 */
export function machineInLanguage(machine: ProvedMachine, catalog: Catalog): ProvedMachine {
  const titled = { ...machine, states: machine.states.map((state) => titledIn(state, machine, catalog)) }
  // Texts are no part of what is proved, so the brand stays true.
  if (catalog.language === 'en') return titled as ProvedMachine
  const told = {
    ...titled,
    sources: machine.sources.map((source) => sourceIn(source, catalog)),
    items: machine.items.map((item) => itemIn(item, catalog)),
    states: titled.states.map((state) => stateIn(state, catalog))
  }
  return told as ProvedMachine
}

function sourceIn(source: MachineSource, { written }: Catalog): MachineSource {
  const quantities = Object.entries(source.quantities).map(([name, quantity]) => [
    name,
    { ...quantity, written: written(quantity.written) }
  ])
  return { ...source, quantities: Object.fromEntries(quantities) }
}

function itemIn(item: MachineItem, { made, written }: Catalog): MachineItem {
  const details: readonly Phrase[] = [
    [englishMade.details.measures('{1}'), made.details.measures('{1}')],
    [englishMade.details.rated('{1}'), made.details.rated('{1}')],
    [englishMade.details.category('{1}'), made.details.category('{1}')],
    [englishMade.details.range('{1}', '{2}'), made.details.range('{1}', '{2}')],
    [englishMade.details.size('{1}'), made.details.size('{1}')],
    [englishMade.details.torque('{1}'), made.details.torque('{1}')],
    [englishMade.details.calibration, made.details.calibration],
    [englishMade.details.number('{1}'), made.details.number('{1}')],
    [englishMade.details.quantity('{1}'), made.details.quantity('{1}')],
    [englishMade.details.glove('{1}'), made.details.glove('{1}')]
  ]
  const { measures } = item
  const told = item.details.map((detail) =>
    measures !== null && detail === englishMade.details.measures(measures)
      ? made.details.measures(made.measured[measures] ?? measures)
      : written(rephrase(detail, details))
  )
  return { ...item, details: told }
}

function titledIn(state: State, { restraints }: ProvedMachine, { made }: Catalog): State {
  return { ...state, title: titleInLanguage(state, restraints, made) }
}

function stateIn(state: State, { made }: Catalog): State {
  const cured = state.kind === 'ask' && /\.\d+\.cured$/.test(state.id)
  return {
    ...state,
    intro: state.intro.map((content) => remedyIn(content, made)),
    inputs: state.inputs.map((input) => readingIn(input, made)),
    exits: cured ? state.exits.map((exit) => answerIn(exit, made)) : state.exits
  }
}

function remedyIn(content: Content, made: Catalog['made']): Content {
  if (content.kind !== 'paragraph' || content.runs.length !== 1) return content
  const [run] = content.runs
  const found = run?.kind === 'strong' ? /^Remedy (\d+) of (\d+): (.*)$/s.exec(run.text) : null
  if (found === null) return content
  const [, number = '', count = '', label = ''] = found
  return { kind: 'paragraph', runs: [{ kind: 'strong', text: made.remedy(number, count, label) }] }
}

function readingIn(input: Input, made: Catalog['made']): Input {
  if (input.kind !== 'reading' || input.source === null) return input
  const found = /^(.+): (\S+) to (\S+)$/.exec(input.label)
  if (found === null) return input
  const [, source = '', first = '', second = ''] = found
  return { ...input, label: `${source}: ${made.pair(first, second === englishMade.earth ? made.earth : second)}` }
}

function answerIn(exit: Exit, made: Catalog['made']): Exit {
  if (exit.on !== 'answer') return exit
  if (exit.label === englishMade.yes) return { ...exit, label: made.yes }
  return exit.label === englishMade.no ? { ...exit, label: made.no } : exit
}
