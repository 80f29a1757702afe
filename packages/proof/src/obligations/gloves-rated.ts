import { type GloveClass, gloveClasses, gloveClassFits, worstCaseVolts } from '@lockwright/energy'
import type { Machine, MachineItem, MachineSource } from '@lockwright/machine'
import { currentOf, type ElectricalStep, electricalSteps, itemsNamed } from '../electrical-steps.js'
import type { Declared, Finding, Obligation } from '../obligation.js'
import { quoted } from '../vocabulary.js'

export const glovesRated: Obligation = {
  id: 'gloves-rated',
  statement: 'until it is proven dead it is treated as live: gloves fit the voltage',
  sources: ['29 CFR 1910.137'],
  danger: 'Gloves of too low a class break down, and the current goes through the hand inside them.',
  waivable: false,
  check: { kind: 'declared', find }
}

function find(machine: Machine): Declared {
  const steps = electricalSteps(machine)
  return { arises: steps.length > 0, findings: steps.flatMap((step) => findingsOf(machine, step)) }
}

function findingsOf(machine: Machine, { state, sources }: ElectricalStep): readonly Finding[] {
  const gloves = itemsNamed(machine, state.wear, 'wear').filter(({ glove }) => glove !== null)
  if (gloves.length === 0) {
    const names = quoted(sources.map(({ id }) => id))
    return [
      {
        span: state.span,
        what: `Nobody wears insulating gloves with a class here, and ${names} may still be live.`,
        mend: 'List the gloves with their class, `::wear[...]{#gloves class=0}`, and name them here: `wear=gloves`.',
        related: []
      }
    ]
  }
  return sources.flatMap((source) =>
    gloves.flatMap((item) => {
      const fault = misfit(source, item)
      return fault === null ? [] : [{ ...fault, span: state.span }]
    })
  )
}

function misfit(source: MachineSource, { id, glove, span }: MachineItem): Omit<Finding, 'span'> | null {
  const { voltage } = source.quantities
  if (glove === null || voltage === undefined) return null
  const volts = worstCaseVolts(voltage)
  const current = currentOf(source)
  if (gloveClassFits(glove, volts, current)) return null
  const reach = `${Math.ceil(volts)} V ${current}`
  const fits = (Object.keys(gloveClasses) as GloveClass[])
    .filter((one) => gloveClassFits(one, volts, current))
    .sort((one, other) => gloveClasses[one].ac - gloveClasses[other].ac)[0]
  return {
    what: `\`${id}\`, class ${glove}, may be used up to ${gloveClasses[glove][current]} V ${current}; \`${source.id}\` can reach ${reach}.`,
    mend:
      fits === undefined
        ? `No class of gloves is made for ${reach}: this cannot be done by hand.`
        : `Wear gloves of class ${fits} or higher where ${reach} can be met.`,
    related: [{ span, note: `\`${id}\` is listed here.` }]
  }
}
