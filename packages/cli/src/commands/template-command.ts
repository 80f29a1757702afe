import { type Command, Option } from 'commander'
import type { PreviewFlags } from './template.js'

const help = `
A site can say in its own words what stands at the edges of a sheet. In its folder \`templates\` lie, each if wanted:
  letterhead.hbs   over the title of the first page          header.hbs   under the fixed line at the top of each page
  footer.hbs       at the right foot of each page            paper.hbs    a4 or letter, where --paper does not say
  fields.hbs       rows of the first page, each \`Name: text\`; \`Name:\` alone is a place to write in
  wording.hbs      names and headings, each \`key: words\`, as \`parts.wear: Protective gear\`
{{name}} puts a value in, {{#if name}} ... {{else}} ... {{/if}} asks for it; nothing else runs. The values:
  equipment.tag, equipment.name, equipment.place, procedure, title, revision, scope, generation, language, digest,
  serial, printed, issue.by, issue.at
A template that names anything else is refused with file:line:column. No template reaches a gate, a notice, a
signal word, the cautions, the digest, the issue state or what was proved: they are not theirs to change.

Examples:
  lockwright template preview site --out preview.pdf
  lockwright template preview site --out preview.pdf --language es --paper letter

Exit codes: 0 printed; 2 could not run: a template is wrong (what, where and how to mend it is said).`

export function templateCommand(lockwright: Command): void {
  const template = lockwright
    .command('template')
    .summary("see what a site's own templates make of a sheet")
    .description("See what a site's own templates make of a sheet.")
  template
    .command('preview')
    .summary('print a sample sheet with the templates of a site')
    .description('Print a sample sheet, of an invented machine and marked DRAFT, with the templates of a site.')
    .argument('<site>', 'a site folder')
    .requiredOption('-o, --out <file>', 'where to write the PDF')
    .addOption(new Option('--paper <size>', 'paper size').choices(['a4', 'letter']).default('a4'))
    .addOption(
      new Option('--language <language>', 'language of the fixed wording')
        .choices(['en', 'es', 'de', 'fr'])
        .default('en')
    )
    .addHelpText('after', help)
    .action(async (site: string, options: PreviewFlags, command: Command) => {
      const { previewTemplates } = await import('./template.js')
      const paperAsked = command.getOptionValueSource('paper') === 'cli'
      process.exitCode = await previewTemplates(site, { ...options, paperAsked })
    })
}
