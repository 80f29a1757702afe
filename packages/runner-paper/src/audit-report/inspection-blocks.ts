import type { Inspected, Inspection } from '@lockwright/records'
import { visible } from '@lockwright/records'
import type { Block, Cell } from '../blocks/block.js'
import { moment } from '../text/moment.js'
import { paragraph, say, stress } from '../text/say.js'

/**
 * The certificate of a periodic inspection. Its four items are those of 29 CFR 1910.147(c)(6)(ii); then the finding
 * ((c)(6)(i)(B)) and the review ((c)(6)(i)(C)), and how its signature is checked.
 */
export function inspectionBlocks(inspection: Inspection): readonly Block[] {
  const { equipment, procedure, revision, on, from, watched, employees, reviewed, outstanding, deviations } = inspection
  return [
    { kind: 'heading', level: 1, text: 'Certificate of a periodic inspection' },
    content(`Of a procedure for the control of hazardous energy, as 29 CFR 1910.147(c)(6)(ii) asks for.`),
    rows([
      ['Machine or equipment', `${equipment.tag}, ${equipment.name}, ${equipment.place}`],
      ['Date of the inspection', on],
      ['Employees included', named(employees)],
      ['Inspection performed by', `${inspection.name} (${inspection.by})`]
    ]),
    { kind: 'heading', level: 2, text: 'What was inspected' },
    rows([
      ['Procedure', `${procedure}, revision ${revision}`],
      ['Digest of the machine', inspection.machine],
      ['Run that was watched', watched ?? 'none that is on record'],
      ['Who works by it was looked up in the runs from', from]
    ]),
    { kind: 'heading', level: 2, text: 'Deviations and inadequacies, and what was done about them' },
    deviations.length === 0
      ? content('None were found.')
      : table(
          ['Found', 'Corrected'],
          deviations.map(({ found, corrected }) => [cell(found), cell(corrected)])
        ),
    { kind: 'heading', level: 2, text: 'Responsibilities gone through with each authorized employee' },
    rows([
      ['Gone through with', named(reviewed)],
      ['Still outstanding, of those who worked by it', named(outstanding)]
    ]),
    { kind: 'heading', level: 2, text: 'Signature' },
    rows([
      ['Signed by', `${inspection.name} (${inspection.by})`],
      ['Time', moment(inspection.at)],
      ['Meaning', inspection.meaning]
    ]),
    content(
      'The signed record is the file under inspections/ in the site folder; this page is a copy to read. `lockwright audit` checks its signature and whether the inspector may inspect. The rules of the plant, local codes and the judgement of qualified people stand above it.'
    )
  ]
}

function named(people: readonly Inspected[]): string {
  return people.length === 0 ? 'none' : people.map(({ id, name }) => `${name} (${id})`).join(', ')
}

function content(text: string): Block {
  return { kind: 'content', content: paragraph(say(visible(text.replaceAll('`', '')))) }
}

function cell(text: string): Cell {
  return [say(visible(text))]
}

function rows(list: readonly (readonly [label: string, value: string])[]): Block {
  return table(
    ['Item', 'As it was recorded'],
    list.map(([label, value]) => [[stress(label)], cell(value)])
  )
}

function table(heads: readonly [string, string], list: readonly (readonly Cell[])[]): Block {
  const shares = heads[0] === 'Item' ? [2, 5] : [1, 1]
  return {
    kind: 'table',
    columns: heads.map((head, index) => ({ head, share: shares[index] ?? 1 })),
    rows: list,
    writing: false
  }
}
