import type { Root } from 'mdast'
import { gfmTableFromMarkdown } from 'mdast-util-gfm-table'
import { gfmTable } from 'micromark-extension-gfm-table'
import remarkDirective from 'remark-directive'
import remarkFrontmatter from 'remark-frontmatter'
import remarkParse from 'remark-parse'
import { type Processor, unified } from 'unified'
import { attributePlaces } from './attribute-places.js'
import { referenceFromMarkdown, referenceSyntax } from './reference.js'

const colon = 58

/** Takes out text directives, which make `12:30` lose its half, and adds what the language needs. */
function procedureSyntax(this: Processor): void {
  const { micromarkExtensions = [], fromMarkdownExtensions = [] } = this.data()
  for (const extension of micromarkExtensions) {
    if (extension.text?.[colon] !== undefined) delete extension.text[colon]
  }
  micromarkExtensions.push(referenceSyntax)
  fromMarkdownExtensions.push(attributePlaces(), referenceFromMarkdown)
}

function tableSyntax(this: Processor): void {
  const { micromarkExtensions = [], fromMarkdownExtensions = [] } = this.data()
  micromarkExtensions.push(gfmTable())
  fromMarkdownExtensions.push(gfmTableFromMarkdown())
}

const withoutTables = unified()
  .use(remarkParse)
  .use(remarkFrontmatter)
  .use(remarkDirective)
  .use(procedureSyntax)
  .freeze()
const withTables = withoutTables().use(tableSyntax).freeze()

// A row of hyphens with a bar beside one of them, which every table has.
const delimiterRow = /\|[ \t]*:?-|-:?[ \t]*\|/

/** Markdown as a tree, with every place kept. Text that could stall the parser must have been refused before. */
export function parseMarkdown(text: string): Root {
  // Looking for tables costs a tenth of the time, and most procedures have none.
  return (delimiterRow.test(text) ? withTables : withoutTables).parse(text)
}
