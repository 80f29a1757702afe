import { formatQuantity, type Quantity, safeBelow } from '@lockwright/energy'
import type { ParameterName } from '@lockwright/language'
import type { MachineSource } from '@lockwright/machine'
import { amountFacet, type Facet, type More } from './facet.js'

interface Lean {
  readonly more: More
  /** The end of the tolerance that the worst case is reckoned with. */
  readonly end: 'low' | 'high'
}

const dangerous: Lean = { more: 'stricter', end: 'high' }
const helpful: Lean = { more: 'looser', end: 'low' }

/** Whether more of a parameter asks for more care, as a decay or a stored energy is reckoned from it. */
const leans: Readonly<Record<Exclude<ParameterName, 'safe-below' | 'label-wait'>, Lean>> = {
  voltage: dangerous,
  'fault-current': dangerous,
  capacitance: dangerous,
  bleed: dangerous,
  capacity: dangerous,
  inductance: dangerous,
  current: dangerous,
  resistance: helpful,
  inertia: dangerous,
  speed: dangerous,
  'coast-down': dangerous,
  'friction-torque': helpful,
  mass: dangerous,
  height: dangerous,
  rate: dangerous,
  deflection: dangerous,
  preload: dangerous,
  volume: dangerous,
  pressure: dangerous,
  'bleed-bore': helpful,
  temperature: dangerous,
  'gas-volume': dangerous,
  precharge: { more: 'neither', end: 'high' },
  ambient: dangerous,
  'time-constant': dangerous
}

const reckoned: Facet['why'] = {
  more: 'The worst case that waits, gloves and testers are reckoned for changes with it.',
  less: 'The worst case that waits, gloves and testers are reckoned for changes with it.'
}

/** The quantities of a source at their worst case, tolerance included; a level or wait that is not given counts too. */
export function quantityFacets(source: MachineSource): readonly (readonly [string, Facet])[] {
  const { quantities } = source
  const declared = Object.entries(leans).flatMap(([name, { more, end }]) => {
    const quantity = quantities[name]
    return quantity === undefined ? [] : [[name, atEnd(`worst-case ${name}`, quantity, end, more, reckoned)] as const]
  })
  const level = safeBelow(source)
  const label = quantities['label-wait']
  return [
    ...declared,
    ...(level === undefined
      ? []
      : [
          [
            'safe-below',
            atEnd('level that counts as safe', level, 'low', 'looser', {
              more: 'More energy may be left when it counts as safe.',
              less: 'Less energy may be left when it counts as safe.'
            })
          ] as const
        ]),
    [
      'label-wait',
      amountFacet(
        "wait on the equipment's label",
        label?.interval.high ?? 0,
        label === undefined ? 'none' : formatQuantity(label),
        'stricter',
        { more: 'The wait that is asked for is at least as long.', less: 'The wait that is asked for may be shorter.' }
      )
    ]
  ]
}

function atEnd(name: string, quantity: Quantity, end: 'low' | 'high', more: More, why: Facet['why']): Facet {
  const { interval, dimension, current = '', reference = '' } = quantity
  return amountFacet(name, interval[end], formatQuantity(quantity), more, why, `${dimension} ${current} ${reference}`)
}
