import type { Machine } from '@lockwright/machine'
import { shortDigest } from '../blocks/front-blocks.js'
import type { Catalog } from '../catalog.js'
import type { PrintOptions } from '../print-options.js'
import { moment } from '../text/moment.js'

/** The texts at the edges of each page. `fixed` ones are not made from a template, so no template can drop them. */
export interface PageTexts {
  readonly letterhead: string
  readonly header: string
  readonly fixedHeader: string
  readonly footer: string
  readonly fixedFooter: string
}

const templates = {
  letterhead: '{{equipment.place}}',
  header: '{{equipment.tag}}  {{title}}{{#if generation}} ({{generation}}){{/if}}',
  footer: '{{procedure}}, revision {{revision}}'
} as const

/** Fills the templates. Their values are plain text: nothing is escaped, and nothing in a value is a template. */
export async function pageTexts(
  machine: Machine,
  generation: string,
  options: PrintOptions,
  catalog: Catalog
): Promise<PageTexts> {
  const { default: handlebars } = await import('handlebars')
  const values = {
    equipment: machine.equipment,
    title: machine.title,
    procedure: machine.procedure,
    revision: machine.revision,
    generation: generation === '' ? '' : catalog.forGeneration(generation)
  }
  const fill = (template: string): string => handlebars.compile(template, { noEscape: true, strict: true })(values)
  const { issue } = options
  return {
    letterhead: fill(templates.letterhead),
    header: fill(templates.header),
    fixedHeader: `${machine.procedure} ${catalog.facts.revision.toLowerCase()} ${machine.revision}, ${catalog.facts.digest.split(' ')[0]?.toLowerCase()} ${shortDigest(options.digest)}`,
    footer: fill(templates.footer),
    fixedFooter:
      issue.kind === 'draft' ? `${catalog.draft}, ${catalog.notIssued}` : catalog.issued(issue.by, moment(issue.at))
  }
}
