import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { type Content, plainText } from './content.js'
import { parseProcedure } from './parse-procedure.js'
import type { Block, Branch, Procedure } from './procedure.js'

const folder = new URL('../fixtures/accepted/', import.meta.url)
const cases = readdirSync(folder)
  .filter((name) => name.endsWith('.md'))
  .map((name) => name.slice(0, -3))

function contentLines(content: readonly Content[]): string[] {
  return content.flatMap((part): string[] => {
    switch (part.kind) {
      case 'paragraph':
        return [
          `"${part.runs.map((run) => (run.kind === 'text' ? run.text : run.kind === 'break' ? '<break>' : `<${run.kind} ${run.text}>`)).join('')}"`
        ]
      case 'list':
        return part.items.flatMap((item, index) =>
          contentLines(item).map((line, at) =>
            at > 0 ? `   ${line}` : `${part.ordered ? `${part.start + index}.` : '-'} ${line}`
          )
        )
      case 'table':
        return [part.header, ...part.rows].map((row) => `| ${row.map((cell) => plainText(cell)).join(' | ')} |`)
      case 'quote':
        return contentLines(part.content).map((line) => `> ${line}`)
      case 'code':
        return part.text.split('\n').map((line) => `\` ${line}`)
      case 'image':
        return [`image ${part.source} "${part.alternate}"`]
      case 'rule':
        return ['rule']
    }
  })
}

function said(word: string, content: readonly Content[]): string[] {
  return contentLines(content).map((line) => `  ${word} ${line}`)
}

function branchLines(title: string, { place, says, body }: Branch): string[] {
  return [
    `  ${title} @${place.start.line}`,
    ...said('  says', says),
    ...body.flatMap((block) => blockLines(block).map((line) => `    ${line}`))
  ]
}

/** Every property of a block that is not prose, as one line. */
function facts(block: object): string {
  const shown = Object.entries(block).filter(
    ([key, value]) => !hidden.has(key) && !(Array.isArray(value) && value.length === 0)
  )
  return shown
    .map(
      ([key, value]) =>
        `${key}=${JSON.stringify(key === 'items' ? (value as { id: string }[]).map(({ id }) => id) : value)}`
    )
    .join(' ')
}

const hidden = new Set([
  'kind',
  'id',
  'named',
  'place',
  'whole',
  'intro',
  'notices',
  'body',
  'label',
  'question',
  'whens',
  'answers',
  'branch',
  'late',
  'remedies',
  'otherwise',
  'outside',
  'content',
  'says'
])

function blockLines(block: Block): string[] {
  const { start, end } = block.place
  const at = `@${start.line}:${start.column}-${end.line}:${end.column}`
  if (block.kind === 'heading') return [`heading ${block.id} ${facts(block)} ${at}`]
  if (block.kind === 'closing') return [`closing ${at}`, ...said('text', block.content)]
  if (block.kind === 'gather') return [`gather ${facts(block)} ${at}`, ...said('intro', block.intro)]
  const label =
    'label' in block ? ` "${plainText(block.label)}"` : 'question' in block ? ` "${plainText(block.question)}"` : ''
  return [
    `${block.kind} ${block.id}${block.named ? '!' : ''}${label} ${facts(block)} ${at}`,
    ...said('intro', block.intro),
    ...block.notices.flatMap(({ word, label: title, body }) => [
      `  ${word} "${plainText(title)}"`,
      ...said('   ', body)
    ]),
    ...('body' in block ? said('does', block.body) : []),
    ...branchesOf(block).flatMap(([title, branch]) => branchLines(title, branch))
  ]
}

function branchesOf(block: Block): (readonly [string, Branch])[] {
  switch (block.kind) {
    case 'by':
      return block.whens.map((when) => [`when ${when.values.join(' ')}`, when])
    case 'only':
      return [['branch', block.branch]]
    case 'ask':
      return block.answers.map((answer) => [`answer "${plainText(answer.label)}"`, answer])
    case 'within':
      return [
        ['branch', block.branch],
        ['late', block.late]
      ]
    case 'remedies':
      return [
        ...block.remedies.map((remedy) => [`remedy "${plainText(remedy.label)}" ${facts(remedy)}`, remedy] as const),
        ['otherwise', block.otherwise]
      ]
    case 'measure':
      return block.outside === undefined ? [] : [['outside', block.outside]]
    default:
      return []
  }
}

function outline({ head, items, body, end }: Procedure): string {
  const { sources, points, restraints, roles, axes, leftOn, waivers, ...rest } = head
  const quantities = (source: (typeof sources)[number]) =>
    Object.entries(source.quantities).map(([name, quantity]) => `${name}=${quantity.written}`)
  return [
    JSON.stringify(rest),
    ...sources.map(
      (source) =>
        `source ${source.id} ${facts({ ...source, kind: undefined, quantities: undefined })} kind=${source.kind} ${quantities(source).join(', ')} @${source.place.start.line}`
    ),
    ...points.map((point) => `point ${point.id} ${facts(point)} @${point.place.start.line}`),
    ...restraints.map(
      (restraint) => `restraint ${restraint.id} ${restraint.kind} ${facts(restraint)} @${restraint.place.start.line}`
    ),
    ...roles.map((role) => `role ${role.id} ${facts(role)} @${role.place.start.line}`),
    ...axes.map((axis) => `axis ${axis.id} ${facts(axis)} @${axis.place.start.line}`),
    ...leftOn.map((left) => `left on ${left.source} ${facts(left)} @${left.place.start.line}`),
    ...waivers.map((waiver) => `waiver ${facts(waiver)} @${waiver.place.start.line}`),
    ...items.map(
      (item) =>
        `${item.kind} ${item.id} "${plainText(item.label)}" ${facts({ ...item, rated: item.rated?.written, range: item.range && `${item.range.low.written} .. ${item.range.high.written}` })} @${item.place.start.line}`
    ),
    ...body.flatMap(blockLines),
    `end @${end.start.line}:${end.start.column}`,
    ''
  ].join('\n')
}

/** Cases that hold no hands-on work, which is warned of. */
const withoutWork = ['directives-by-the-edge', 'every-kind-of-source']

function read(name: string): Procedure {
  const result = parseProcedure({ file: `${name}.md`, bytes: readFileSync(new URL(`${name}.md`, folder)) })
  if (!result.ok)
    throw new Error(
      JSON.stringify(result.diagnostics.map(({ id, what, place }) => `${id} ${place.start.line} ${what}`))
    )
  expect(result.warnings.map(({ id }) => id)).toEqual(withoutWork.includes(name) ? ['no-work'] : [])
  return result.value
}

describe('what the language accepts', () => {
  it('has an outline beside each case', () => {
    const texts = readdirSync(folder).filter((name) => name.endsWith('.txt'))
    expect(texts.map((name) => name.slice(0, -4)).sort()).toEqual([...cases].sort())
  })

  it.each(cases)('%s', (name) => {
    const text = outline(read(name))
    const beside = new URL(`${name}.txt`, folder)
    if (process.env['UPDATE_FIXTURES'] === '1') writeFileSync(beside, text)
    expect(existsSync(beside) ? readFileSync(beside, 'utf8') : '').toBe(text)
  })

  it('reads Windows line endings and a byte-order mark as it reads the same file without', () => {
    expect(outline(read('windows-line-endings'))).toBe(outline(read('choices')))
  })

  it('keeps the label of a step that prints none as the first line of its body', () => {
    const text = readFileSync(new URL('choices.md', folder), 'utf8').replace(
      '::lock{at=Q1 #locked}',
      '::lock[The big one]{at=Q1 #locked}'
    )
    const result = parseProcedure({ file: 'x', text })
    if (!result.ok) throw new Error(result.diagnostics[0].what)
    const lock = result.value.body.find((block) => block.kind === 'lock')
    expect(lock !== undefined && 'body' in lock ? lock.body : null).toEqual([
      { kind: 'paragraph', runs: [{ kind: 'text', text: 'The big one' }] }
    ])
  })
})
