import type { DirectiveGroup, DirectiveSpecification } from '../directive-specification.js'
import { DIRECTIVES } from '../directives.js'
import { restraintKinds } from '../front-matter/read-declarations.js'
import { commonSourceKeys, sourceKindNames } from '../front-matter/source-kinds.js'
import { LIMITS } from '../scan/limits.js'
import { directiveNotes } from './directive-notes.js'
import { frontMatterKeys, type KeyOwner, ownerWords } from './front-matter-keys.js'
import { restraintKindNotes, sourceKindNotes } from './kind-notes.js'
import { formsOf, valueWords } from './tell-directive.js'
import { parametersOf, sourceKindFacts } from './tell-kind.js'

const code = (text: string): string => `\`${text}\``

function table(header: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string =>
    `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`
  return [line(header), line(header.map(() => '---')), ...rows.map(line)].join('\n')
}

function keys(owners: readonly KeyOwner[]): string {
  const rows = owners.flatMap((owner) =>
    frontMatterKeys
      .filter(({ of }) => of === owner)
      .filter(({ key }) => owner !== 'source' || (commonSourceKeys as readonly string[]).includes(key))
      .map(({ key, need, meaning }) => [...(owners.length > 1 ? [ownerWords[owner]] : []), code(key), need, meaning])
  )
  return table([...(owners.length > 1 ? ['of'] : []), 'key', 'needed', 'meaning'], rows)
}

function kinds(): string {
  const overview = table(
    ['kind', 'required', 'optional', 'stores energy', 'can be relieved', '`safe-below`'],
    sourceKindNames.map((kind) => {
      const parameters = parametersOf(kind)
      const named = (required: boolean): string =>
        parameters
          .filter((one) => one.required === required)
          .map(({ name }) => code(name))
          .join(', ')
      const { stores, relieved, safeBelow } = sourceKindFacts(kind)
      return [code(kind), named(true), named(false), stores, relieved, safeBelow]
    })
  )
  const quantities = new Map(
    sourceKindNames.flatMap((kind) =>
      parametersOf(kind).flatMap((one) => (one.measures === '' ? [] : [[one.name, one] as const]))
    )
  )
  const parameters = table(
    ['parameter', 'is', 'meaning'],
    [...quantities.values()].map(({ name, measures, meaning }) => [code(name), measures, meaning])
  )
  const examples = sourceKindNames.map((kind) => `# ${sourceKindNotes[kind].meaning}\n${sourceKindNotes[kind].example}`)
  return `${overview}\n\n${parameters}\n\n\`\`\`yaml\n${examples.join('\n')}\n\`\`\``
}

function restraints(): string {
  return table(
    ['kind', 'meaning', 'example'],
    restraintKinds.map((kind) => [code(kind), restraintKindNotes[kind].meaning, code(restraintKindNotes[kind].example)])
  )
}

const ofEveryStep: ReadonlySet<string> = new Set(['role', 'wear', 'minutes'])

function directive(one: DirectiveSpecification): string {
  const attributes = one.attributes.filter(
    ({ name, required }) => required || one.group !== 'step' || !ofEveryStep.has(name)
  )
  const note = directiveNotes[one.name]
  const meaning = `${one.meaning.charAt(0).toUpperCase()}${one.meaning.slice(1)}.${note === undefined || note.more === '' ? '' : ` ${note.more}`}`
  const rows = attributes.map(({ name, value, required, meaning: says }) => [
    code(name),
    required ? 'required' : 'optional',
    valueWords(value),
    says
  ])
  // A branch is shown where what holds it is shown.
  const example = one.group === 'branch' ? [] : [`\`\`\`text\n${note?.example ?? ''}\n\`\`\``]
  return [
    `#### ${one.name}`,
    `${formsOf(one).map(code).join(' or ')}${one.label === 'optional' ? ', with `[label]` where one is wanted' : ''}`,
    meaning,
    ...(rows.length === 0 ? [] : [table(['attribute', 'needed', 'takes', 'meaning'], rows)]),
    ...example
  ].join('\n\n')
}

function group(name: DirectiveGroup): string {
  return DIRECTIVES.filter((one) => one.group === name)
    .map(directive)
    .join('\n\n')
}

function limits(): string {
  const number = (value: number): string => value.toLocaleString('en')
  return table(
    ['what', 'at most'],
    [
      ['file', `${LIMITS.bytes / 1024} KiB`],
      ['line', `${number(LIMITS.lineLength)} characters`],
      ['directives, lists and quotes inside one another', `${LIMITS.depth}`],
      ['steps', number(LIMITS.steps)],
      ['paragraphs, headings, items, rows, directives and fences', number(LIMITS.blocks)],
      ['YAML aliases', `${LIMITS.aliases}`],
      ['findings that are listed', number(LIMITS.faults)]
    ]
  )
}

/** What `LANGUAGE.md` draws from the tables of the parser, by the name that stands in its marks. */
export const languageTables: Readonly<Record<string, () => string>> = {
  'keys of the procedure': () => keys(['procedure', 'equipment']),
  'keys of hardware': () => keys(['axis', 'generation']),
  'keys of every source': () => keys(['source']),
  'kinds of source': kinds,
  'keys of points': () => keys(['point']),
  'keys of restraints': () => keys(['restraint']),
  'kinds of restraint': restraints,
  'keys of roles': () => keys(['role']),
  'keys of exceptions': () => keys(['left-on', 'waiver']),
  requirements: () => group('requirement'),
  steps: () => group('step'),
  choices: () => group('choice'),
  branches: () => group('branch'),
  notices: () => group('notice'),
  limits
}

/** The page with every drawn part as the tables make it now; a mark of a part that is not known stays as it is. */
export function withTables(page: string): string {
  return page.replace(
    /(<!-- drawn: ([a-z ]+) -->\n)[\s\S]*?(<!-- end -->)/g,
    (whole: string, begin: string, name: string, end: string) => {
      const draw = languageTables[name]
      return draw === undefined ? whole : `${begin}\n${draw()}\n\n${end}`
    }
  )
}
