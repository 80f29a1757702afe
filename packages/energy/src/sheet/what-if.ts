import type { EnergyKind, EnergyParameters } from '../energy-parameters.js'
import type { DecimalOptions } from '../parse-quantity.js'
import { type EnergyParameter, readParameter, withParameter } from '../read-parameter.js'

/** One parameter that is taken otherwise than declared, to see what would come of it. */
export interface WhatIf {
  /** The source it holds for; all sources that have a use for it where none is named. */
  readonly source?: string
  readonly name: string
  readonly text: string
  readonly parameter: EnergyParameter
}

export type ParsedWhatIf = { readonly ok: true; readonly value: WhatIf } | { readonly ok: false; readonly why: string }

/** Reads `voltage=750V`, `dc-link.voltage=750 V ± 5 %`, `gas=nitrogen`. `why` is a full sentence. */
export function parseWhatIf(text: string, options: DecimalOptions = {}): ParsedWhatIf {
  const match = /^\s*(?:([\w+-]+)\.)?([a-z-]+)\s*=(.*)$/s.exec(text)
  if (match === null) {
    return { ok: false, why: `\`${text}\` is not a what-if: write it as \`voltage=750V\` or \`dc-link.voltage=750V\`.` }
  }
  const [, source, name = '', value = ''] = match
  const read = readParameter(name, value, options)
  if (!read.ok) return read
  return {
    ok: true,
    value: { ...(source === undefined ? {} : { source }), name, text: value.trim(), parameter: read.value }
  }
}

/** What a formula of each kind can use, besides what the source declares. */
const usedBy: Readonly<Record<EnergyKind, readonly string[]>> = {
  // No formula reckons with the voltage of a supply.
  electrical: [],
  capacitor: [
    'voltage',
    'capacitance',
    'bleed',
    'label-wait',
    'safe-below',
    'element-capacitance',
    'series',
    'parallel',
    'balancing'
  ],
  battery: ['voltage', 'capacity', 'safe-below'],
  magnet: ['inductance', 'current', 'resistance', 'safe-below'],
  rotating: ['inertia', 'speed', 'coast-down', 'friction-torque', 'safe-below'],
  gravity: ['mass', 'height', 'safe-below'],
  spring: ['rate', 'deflection', 'preload', 'safe-below'],
  gas: [
    'volume',
    'pressure',
    'bleed-bore',
    'temperature',
    'discharge-coefficient',
    'heat-ratio',
    'atmosphere',
    'gas',
    'safe-below'
  ],
  liquid: [
    'pressure',
    'volume',
    'gas-volume',
    'precharge',
    'bleed-bore',
    'discharge-coefficient',
    'bulk-modulus',
    'column-height',
    'heat-ratio',
    'atmosphere',
    'safe-below'
  ],
  thermal: ['temperature', 'ambient', 'time-constant', 'surface', 'contact', 'safe-below'],
  other: ['safe-below']
}

/** Whether a what-if says anything about this source. */
export function concerns(whatIf: WhatIf, source: EnergyParameters & { readonly id: string }): boolean {
  return whatIf.source === undefined ? usedBy[source.kind].includes(whatIf.name) : whatIf.source === source.id
}

/** The source with all that concerns it put in place, and what did. */
export function applyWhatIf<Source extends EnergyParameters & { readonly id: string }>(
  source: Source,
  whatIfs: readonly WhatIf[]
): { readonly source: Source; readonly applied: readonly WhatIf[] } {
  const applied = whatIfs.filter((whatIf) => concerns(whatIf, source))
  return {
    source: applied.reduce((changed, { parameter }) => withParameter(changed, parameter), source),
    applied
  }
}

/** What has to be said of the what-ifs themselves: a slip of the pen must not pass for a result. */
export function whatIfRemarks(
  sources: readonly (EnergyParameters & { readonly id: string })[],
  whatIfs: readonly WhatIf[]
): readonly string[] {
  return whatIfs.flatMap((whatIf) => {
    const concerned = sources.filter((source) => concerns(whatIf, source))
    const written = `\`${whatIf.source === undefined ? '' : `${whatIf.source}.`}${whatIf.name}=${whatIf.text}\``
    const [first, ...others] = concerned
    if (first === undefined) {
      return whatIf.source === undefined
        ? [`${written} changes nothing: no source here has a use for \`${whatIf.name}\`.`]
        : [`${written} changes nothing: there is no source \`${whatIf.source}\`.`]
    }
    if (!usedBy[first.kind].includes(whatIf.name)) {
      return [`${written} changes nothing: a source of kind \`${first.kind}\` has no use for \`${whatIf.name}\`.`]
    }
    if (others.length === 0) return []
    const names = concerned.map(({ id }) => `\`${id}\``).join(', ')
    return [
      `${written} is taken for ${names}: where one of them is meant, write \`${first.id}.${whatIf.name}=${whatIf.text}\`.`
    ]
  })
}
