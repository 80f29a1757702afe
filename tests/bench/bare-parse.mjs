/** The floor of the cold start: imports the Markdown parser that the language is built on, parses one file, ends. */
import { readFileSync } from 'node:fs'
import remarkDirective from 'remark-directive'
import remarkFrontmatter from 'remark-frontmatter'
import remarkParse from 'remark-parse'
import { unified } from 'unified'

const [, , file] = process.argv
unified().use(remarkParse).use(remarkFrontmatter).use(remarkDirective).parse(readFileSync(file, 'utf8'))
