import { shortDigest } from '../blocks/front-blocks.js'
import type { Catalog } from '../catalog.js'
import type { PrintOptions } from '../print-options.js'
import type { Sheet } from '../sheet/sheet.js'
import type { TemplateValues } from './template-values.js'

/** What the templates of a site can put in, for one sheet. */
export function valuesOfSheet({ machine, chosen }: Sheet, options: PrintOptions, catalog: Catalog): TemplateValues {
  const { issue, serial, now, digest } = options
  return {
    'equipment.tag': machine.equipment.tag,
    'equipment.name': machine.equipment.name,
    'equipment.place': machine.equipment.place,
    procedure: machine.procedure,
    title: machine.title,
    revision: String(machine.revision),
    scope: machine.scope,
    generation: chosen.map(({ value }) => value.name).join(', '),
    language: catalog.language,
    digest: shortDigest(digest),
    serial: serial ?? '',
    printed: now === undefined ? '' : catalog.moment(now),
    'issue.by': issue.kind === 'issued' ? issue.by : '',
    'issue.at': issue.kind === 'issued' ? catalog.moment(issue.at) : ''
  }
}
