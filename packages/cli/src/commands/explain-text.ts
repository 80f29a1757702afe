import type { DirectiveSpecification, RestraintKind, SourceKind } from '@lockwright/language'
import {
  directiveNotes,
  type FaultId,
  type FrontMatterKey,
  faultDangers,
  faultMends,
  formsOf,
  ownerWords,
  parametersOf,
  restraintKindNotes,
  sourceKindFacts,
  sourceKindNotes,
  valueWords
} from '@lockwright/language/reference'
import { obligations } from '@lockwright/proof'
import type { Answer } from './explain-answers.js'
import { obligationsOf } from './explain-obligations.js'

const width = 100

/** Prose broken at spaces, each line behind the indent. */
export function wrapped(prose: string, indent: string): string {
  const lines: string[] = []
  for (const word of prose.split(' ')) {
    const last = lines.at(-1)
    if (last !== undefined && indent.length + last.length + 1 + word.length <= width) {
      lines[lines.length - 1] = `${last} ${word}`
    } else lines.push(word)
  }
  return lines.map((line) => indent + line).join('\n')
}

function indented(text: string): string {
  return text
    .split('\n')
    .map((line) => (line === '' ? '' : `    ${line}`))
    .join('\n')
}

function paragraph(title: string, text: string): string {
  return `  ${title}:\n${text}`
}

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`
const code = (text: string): string => `\`${text}\``

/** What is said about one thing, but for an obligation, which has a page of its own. */
export function textOf(answer: Exclude<Answer, { readonly group: 'obligation' }>): string {
  switch (answer.group) {
    case 'directive':
      return directiveText(answer.directive)
    case 'energy kind':
      return sourceKindText(answer.kind)
    case 'restraint kind':
      return restraintKindText(answer.kind)
    case 'key':
      return answer.entries.map(keyText).join('\n\n')
    case 'parameter':
      return parameterText(answer.name, answer.kinds)
    case 'finding':
      return findingText(answer.id)
  }
}

function directiveText(directive: DirectiveSpecification): string {
  const { name, group, meaning, attributes, label, id } = directive
  const note = directiveNotes[name]
  const kind = group === 'step' ? 'a step' : group === 'branch' ? 'a branch' : `a ${group}`
  const looking = (obligationsOf[name] ?? []).flatMap((one) => obligations.filter((known) => known.id === one))
  const attributeLines = attributes.flatMap((one) => [
    `    ${one.name} (${one.required ? 'required' : 'optional'}): ${valueWords(one.value)}`,
    wrapped(sentence(one.meaning), '        ')
  ])
  const extras = [
    ...(label === 'optional' ? ['a label, `[...]`, where one is wanted'] : []),
    ...(id === 'optional' ? ['a name, `#...`, where something refers to it'] : [])
  ]
  const forms = `${formsOf(directive).map(code).join(' or ')}${extras.length === 0 ? '' : `; ${extras.join('; ')}`}`
  return [
    `${name}, ${kind}`,
    wrapped(`${sentence(meaning)} ${note?.more ?? ''}`.trim(), '  '),
    paragraph('Forms', wrapped(forms, '    ')),
    ...(attributeLines.length === 0 ? [] : [paragraph('Attributes', attributeLines.join('\n'))]),
    paragraph('Example', indented(note?.example ?? '')),
    ...(looking.length === 0
      ? []
      : [
          paragraph(
            'Obligations that look at it',
            looking
              .map(({ id: one, statement }) => `    ${one}\n${wrapped(sentence(statement), '        ')}`)
              .join('\n')
          )
        ])
  ].join('\n\n')
}

function sourceKindText(kind: SourceKind): string {
  const { stores, relieved, safeBelow } = sourceKindFacts(kind)
  const parameters = parametersOf(kind).map(({ name, required, measures, meaning }) => {
    const means = measures === '' ? `see ${code(`explain ${name}`)}` : `${measures}, ${meaning}`
    return wrapped(`${name} (${required ? 'required' : 'optional'}): ${means}`, '    ')
  })
  return [
    `${kind}, a kind of energy source`,
    wrapped(sourceKindNotes[kind].meaning, '  '),
    paragraph('Parameters', parameters.join('\n')),
    `  Stores energy: ${stores}\n  Can be relieved: ${relieved}\n  safe-below: ${safeBelow}`,
    paragraph('Example', indented(sourceKindNotes[kind].example))
  ].join('\n\n')
}

function restraintKindText(kind: RestraintKind): string {
  const { meaning, example } = restraintKindNotes[kind]
  return [`${kind}, a kind of restraint`, wrapped(meaning, '  '), paragraph('Example', indented(example))].join('\n\n')
}

function keyText({ of, key, need, meaning, example }: FrontMatterKey): string {
  return [
    `${key}, a key of ${ownerWords[of]} (${need})`,
    wrapped(sentence(meaning), '  '),
    paragraph('Example', indented(example))
  ].join('\n\n')
}

function parameterText(name: string, kinds: readonly SourceKind[]): string {
  const rows = kinds.map((kind) => {
    const own = parametersOf(kind).find((one) => one.name === name)
    if (own === undefined) return wrapped(`${kind}: ${sourceKindFacts(kind).safeBelow}`, '    ')
    return wrapped(`${kind} (${own.required ? 'required' : 'optional'}): ${own.measures}, ${own.meaning}`, '    ')
  })
  return [`${name}, a quantity of a source under \`energy\``, paragraph('Kinds', rows.join('\n'))].join('\n\n')
}

function findingText(id: FaultId): string {
  const { mend, shown } = faultMends[id]
  return [
    `${id}, a finding about the text`,
    paragraph('Why it is dangerous', wrapped(faultDangers[id], '    ')),
    paragraph('How to mend', wrapped(mend, '    ')),
    ...(shown === undefined
      ? []
      : [paragraph('Instead of', indented(shown.wrong)), paragraph('Write', indented(shown.mended))])
  ].join('\n\n')
}
