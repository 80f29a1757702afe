import { describe, expect, it } from 'vitest'
import type { Block, Card } from '../blocks/block.js'
import { layOut } from '../blocks/lay-out.js'
import { catalogFor } from '../catalog.js'
import { pageTexts } from '../draw/page-texts.js'
import type { PrintOptions } from '../print-options.js'
import { printProcedure } from '../print-procedure.js'
import { buildSheet } from '../sheet/build-sheet.js'
import { proved, written } from '../translations/compiled.fixture.js'
import { type FilledTemplates, fillTemplates } from './fill-templates.js'
import { type ReadTemplates, readTemplates } from './read-templates.js'
import { sampleProcedure } from './sample-procedure.js'
import { type TemplateValues, templateValues } from './template-values.js'
import { templatesForSheet } from './templates-for-sheet.js'
import { withWording, wordingKeys } from './wording-keys.js'

const options: PrintOptions = { paper: 'a4', issue: { kind: 'draft' }, digest: 'ab12'.repeat(16), serial: 'S-7' }
const { machine } = proved(written('booster-pump-precharge.md'))

function read(files: Readonly<Record<string, string>>): Promise<ReadTemplates> {
  return readTemplates(new Map(Object.entries(files).map(([name, text]) => [name, new TextEncoder().encode(text)])))
}

async function filled(files: Readonly<Record<string, string>>) {
  const templates = await read(files)
  if (!templates.ok) throw new Error(templates.faults.map(({ what }) => what).join('\n'))
  return templatesForSheet(machine, options, templates.templates)
}

async function faultsOf(files: Readonly<Record<string, string>>) {
  const templates = await read(files)
  const found = templates.ok ? await templatesForSheet(machine, options, templates.templates) : templates
  return found.ok ? [] : found.faults
}

describe('the templates of a site', () => {
  it('put in the documented values', async () => {
    const all = Object.keys(templateValues)
      .map((path) => `{{${path}}}`)
      .join('|')
    const templates = await read({ 'fields.hbs': `All: ${all}\nWork order:\n` })
    if (!templates.ok) throw new Error('refused')
    const values = Object.fromEntries(Object.keys(templateValues).map((path) => [path, path.toUpperCase()]))
    const found = await fillTemplates(templates.templates, values as TemplateValues)
    expect(found).toMatchObject({
      ok: true,
      filled: {
        fields: [
          { label: 'All', value: Object.keys(templateValues).join('|').toUpperCase() },
          { label: 'Work order', value: '' }
        ]
      }
    })
  })

  it('ask for a value and leave no trace of what is absent', async () => {
    const found = await filled({
      'footer.hbs': '{{#if issue.by}}by {{issue.by}}{{else}}draft of {{procedure}}{{/if}}',
      'letterhead.hbs': '{{#unless generation}}Every series{{/unless}} <b>&amp; {{equipment.place}}</b>',
      'paper.hbs': '{{#if serial}}letter{{else}}a4{{/if}}\n'
    })
    expect(found).toMatchObject({
      ok: true,
      filled: {
        footer: 'draft of P202-PRECHARGE',
        // Nothing is escaped: paper is no web page.
        letterhead: 'Every series <b>&amp; Sandholm pumping station</b>',
        paper: 'letter'
      }
    })
  })

  it.each([
    ['header.hbs', 'A\n  {{equipment.nam}}', 2, 5, 'There is no value `equipment.nam`'],
    ['header.hbs', '{{#if generaton}}x{{/if}}', 1, 7, 'There is no value `generaton`'],
    ['header.hbs', '{{#each title}}x{{/each}}', 1, 1, 'A block `each`'],
    ['header.hbs', '{{#with equipment}}{{tag}}{{/with}}', 1, 1, 'A block `with`'],
    ['header.hbs', '{{> other}}', 1, 1, 'PartialStatement'],
    ['header.hbs', '{{lookup equipment "tag"}}', 1, 1, 'A helper is called'],
    ['header.hbs', '{{log title}}', 1, 1, 'A helper is called'],
    ['header.hbs', '{{{title}}}', 1, 1, 'three braces'],
    ['header.hbs', '{{&title}}', 1, 1, 'three braces'],
    ['header.hbs', '{{constructor}}', 1, 3, 'There is no value `constructor`'],
    ['header.hbs', '{{equipment.__proto__}}', 1, 3, 'There is no value `equipment.__proto__`'],
    ['header.hbs', '{{this}}', 1, 3, 'There is no value `this`'],
    ['header.hbs', '{{../title}}', 1, 3, 'is not the name of a value'],
    ['header.hbs', '{{@root.title}}', 1, 3, 'is not the name of a value'],
    ['header.hbs', '{{"title"}}', 1, 3, 'is not the name of a value'],
    ['header.hbs', '{{#*inline "a"}}x{{/inline}}', 1, 1, 'DecoratorBlock'],
    ['header.hbs', 'A {{title', 1, 5, 'do not fit together'],
    ['header.hbs', '{{#if title}}x{{/unless}}', 1, 4, 'do not fit together'],
    ['hedder.hbs', 'x', 1, 1, 'No template is called `hedder.hbs`'],
    ['footer.hbs', 'x'.repeat(9000), 1, 1, 'at most 8192 bytes'],
    ['footer.hbs', 'x'.repeat(61), 1, 1, 'there is room for 60'],
    ['header.hbs', 'a\u202Eb', 1, 1, 'turns the reading order'],
    ['header.hbs', 'a\u001B[2Jb', 1, 1, 'control character'],
    ['paper.hbs', 'a5', 1, 1, '`a5` is no paper size'],
    ['fields.hbs', 'Permit:\nno colon', 2, 1, 'no name with a colon'],
    ['fields.hbs', Array.from({ length: 13 }, (_, at) => `F${at}:`).join('\n'), 13, 1, 'more than 12 fields'],
    ['wording.hbs', '\nsignalWords.danger: Note', 2, 1, '`signalWords.danger` is not wording that a site can change'],
    ['wording.hbs', 'cautions: none', 1, 1, '`cautions` is not'],
    ['wording.hbs', 'draft: FINAL', 1, 1, '`draft` is not'],
    ['wording.hbs', 'legend.gate: skip it', 1, 1, '`legend.gate` is not'],
    ['wording.hbs', 'closing.claim: This is safe', 1, 1, '`closing.claim` is not'],
    ['wording.hbs', 'steps.gate: step', 1, 1, '`steps.gate` is not'],
    ['wording.hbs', '__proto__: x', 1, 1, '`__proto__` is not']
  ])('refuse %s with %j at %d:%d', async (file, text, line, column, what) => {
    const [first] = await faultsOf({ [file]: text })
    expect(first).toMatchObject({ file, line, column })
    expect(`${first?.what}`).toContain(what)
    // Every fault says why it is dangerous and how to mend it.
    expect(first?.danger).toMatch(/\.$/)
    expect(first?.mend).toMatch(/\.$/)
  })

  it('tell every fault of every file at once', async () => {
    expect(await faultsOf({ 'header.hbs': '{{a}} {{b}}', 'footer.hbs': '{{c}}' })).toHaveLength(3)
  })

  it('are no templates themselves: nothing in a value runs', async () => {
    const { machine: hostile } = proved(
      written('booster-pump-precharge.md')
        .replace('scope: Replacing', 'scope: "{{digest}} {{#if}} ')
        .replace('motor or the pump.\nreview', 'motor or the pump."\nreview')
    )
    const templates = await read({ 'header.hbs': '{{scope}}' })
    if (!templates.ok) throw new Error('refused')
    const found = await templatesForSheet(hostile, options, templates.templates)
    expect(found.ok && found.filled.header).toContain('{{digest}} {{#if}}')
  })
})

const hostile: FilledTemplates = {
  letterhead: '',
  header: '',
  footer: '',
  fields: [],
  wording: Object.fromEntries(wordingKeys.map((key) => [key, '·'])),
  paper: 'letter'
}

/** Blocks with the wording of a site's choice masked, so that what is left must be the same. */
function laidOut(templates: FilledTemplates | undefined): readonly Block[] {
  const catalog = withWording(catalogFor('en', 'en'), templates?.wording ?? {})
  return layOut(buildSheet(machine), { ...options, ...(templates === undefined ? {} : { templates }) }, catalog)
}

const cards = (blocks: readonly Block[]): readonly Card[] =>
  blocks.flatMap((block) => (block.kind === 'step' ? [block.card] : []))

describe('a template that says nothing at all', () => {
  const [plain, changed] = [laidOut(undefined), laidOut(hostile)]

  it('drops no gate and no step', () => {
    const told = (card: Card) => [card.number, card.shape, card.bar, card.title, card.rows.length]
    expect(cards(changed).map(told)).toEqual(cards(plain).map(told))
    expect(cards(changed).filter(({ shape }) => shape === 'gate').length).toBeGreaterThan(10)
  })

  it('drops no notice and changes no signal word', () => {
    const notices = (blocks: readonly Block[]) =>
      cards(blocks).flatMap(({ notices }) => notices.map(({ signal, label, body }) => [signal, label, body]))
    expect(notices(changed)).toEqual(notices(plain))
    expect(notices(changed).map(([signal]) => signal)).toContain('DANGER')
  })

  it('drops neither the cautions nor the legends nor what was proved', () => {
    const fixed = (blocks: readonly Block[]) =>
      blocks.filter((block) => block.kind === 'panel' || block.kind === 'legend')
    expect(fixed(changed)).toEqual(fixed(plain))
    expect(JSON.stringify(changed)).toContain(catalogFor('en', 'en').closing.claim)
  })

  it('leaves the digest, the serial and the issue state on the first page and on every page', () => {
    const [title] = changed
    expect(title?.kind === 'title' && title.code).toContain(options.digest)
    expect(JSON.stringify(title)).toContain('DRAFT, not issued for use')
    const texts = pageTexts(machine, '', { ...options, templates: hostile }, catalogFor('en', 'en'))
    expect(texts.fixedHeader).toContain('ab12ab12ab12')
    expect(texts.fixedHeader).toContain('S-7')
    expect(texts.fixedFooter).toBe('DRAFT, not issued for use')
  })

  it('still gives a whole file', async () => {
    const pdf = Buffer.from(await printProcedure(machine, { ...options, templates: hostile })).toString('latin1')
    expect(pdf.trimEnd().endsWith('%%EOF')).toBe(true)
  })
})

describe('the sample of the preview', () => {
  it('is proved', () => {
    expect(proved(sampleProcedure).machine.procedure).toBe('SAMPLE')
  })
})
