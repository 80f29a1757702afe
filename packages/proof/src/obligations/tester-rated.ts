import { worstCaseVolts } from '@lockwright/energy'
import type { Machine, MachineItem, MachineSource } from '@lockwright/machine'
import { currentOf, electricalProofs, testersOf } from '../electrical-steps.js'
import type { Declared, Finding, Obligation } from '../obligation.js'

export const testerRated: Obligation = {
  id: 'tester-rated',
  statement: 'the tester fits the circuit: rated for its worst-case voltage, and for its category',
  sources: ['IEC 61010-2-030', 'IEC 61010-2-033', '29 CFR 1910.334(c)(3)'],
  danger: 'A tester that is too weak for the circuit can burst in the hand at the first surge.',
  waivable: false,
  check: { kind: 'declared', find }
}

type Fault = Pick<Finding, 'what' | 'mend'>

function find(machine: Machine): Declared {
  const pairs = electricalProofs(machine).flatMap(({ state, sources }) =>
    testersOf(machine, state).flatMap((tester) => sources.map((source) => ({ span: state.span, tester, source })))
  )
  return {
    arises: pairs.length > 0,
    findings: pairs.flatMap(({ span, tester, source }) =>
      // Two questions, never one: 1000 V of category III and 600 V of category IV are not ordered.
      [voltageFault(tester, source), categoryFault(tester, source)].flatMap((fault) =>
        fault === null
          ? []
          : { ...fault, span, related: [{ span: tester.span, note: `\`${tester.id}\` is listed here.` }] }
      )
    )
  }
}

function voltageFault({ id, rated }: MachineItem, source: MachineSource): Fault | null {
  const { voltage } = source.quantities
  if (rated === null) {
    return {
      what: `\`${id}\` does not say up to which voltage it may be used.`,
      mend: 'Write `rated="1000 V"`, as printed on it or on its leads: the lower of the two.'
    }
  }
  if (rated.dimension !== 'voltage') {
    return {
      what: `\`${id}\` is rated ${rated.written}, which is not a voltage.`,
      mend: 'Write the voltage that is printed on it or on its leads, the lower of the two: `rated="1000 V"`.'
    }
  }
  if (voltage === undefined) return null
  const volts = worstCaseVolts(voltage)
  const current = currentOf(source)
  if (rated.interval.low >= volts && (rated.current ?? current) === current) return null
  const reach = `${Math.ceil(volts)} V ${current}`
  return {
    what: `\`${id}\` is rated ${rated.written}; \`${source.id}\` can reach ${reach}.`,
    mend: `Take a tester that is rated for at least ${reach}.`
  }
}

const categories = ['II', 'III', 'IV']

function categoryFault({ id, category }: MachineItem, source: MachineSource): Fault | null {
  const needed = source.category ?? 'III'
  if (category === null) {
    return {
      what: `\`${id}\` does not say for which measurement category it is built.`,
      mend: `Write \`category=${needed}\` if that is printed on it and on its leads.`
    }
  }
  if (categories.indexOf(category) >= categories.indexOf(needed)) return null
  return {
    what: `\`${id}\` is of category ${category}; the circuit of \`${source.id}\` is of category ${needed}${source.category === null ? ', as nothing else is declared' : ''}.`,
    mend: `Take a tester of category ${needed} or higher.`
  }
}
