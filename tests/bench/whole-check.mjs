/**
 * What a check costs over what its parse costs, warm, in one process: rounds of the bare parser and of the whole
 * check take turns, so that a busy machine slows both alike; the ratio is the median over the rounds.
 * The floor is the parse alone of the whole file: its Markdown by the Markdown parser, its front matter by the YAML
 * parser. The ratio to the Markdown alone stands beside it.
 */
import { readFileSync } from 'node:fs'
import { compileFile } from '@lockwright/cli'
import { parseProcedure } from '@lockwright/language'
import { compile } from '@lockwright/machine/lower'
import { prove } from '@lockwright/proof'
import remarkDirective from 'remark-directive'
import remarkFrontmatter from 'remark-frontmatter'
import remarkParse from 'remark-parse'
import { unified } from 'unified'
import { parseDocument } from 'yaml'
import { median } from './median.mjs'

const bare = unified().use(remarkParse).use(remarkFrontmatter).use(remarkDirective).freeze()

/** Times in milliseconds a call; `ratio` is the whole check over the bare parse. */
export function measureWholeCheck(file, { warmUp = 60, rounds = 61, calls = 4 } = {}) {
  const bytes = readFileSync(file)
  const text = bytes.toString('utf8')
  const stages = stagesOf(file, bytes)
  const jobs = {
    markdown: () => bare.parse(text),
    parse: () => parseDocument(bare.parse(text).children[0].value).toJS(),
    check: () => compileFile(file, bytes),
    ...stages.jobs
  }
  for (let call = 0; call < warmUp; call++) for (const job of Object.values(jobs)) job()
  const times = Object.fromEntries(Object.keys(jobs).map((name) => [name, []]))
  for (let round = 0; round < rounds; round++) {
    // Every other round runs the other way about, so that no job always follows the same one.
    const order = Object.entries(jobs)
    for (const [name, job] of round % 2 === 0 ? order : order.reverse()) times[name].push(timed(job, calls))
  }
  return {
    file,
    verdict: compileFile(file, bytes).kind,
    ...stages.size,
    milliseconds: Object.fromEntries(Object.entries(times).map(([name, all]) => [name, median(all)])),
    ratio: median(times.check.map((time, round) => time / times.parse[round])),
    ratioToMarkdown: median(times.check.map((time, round) => time / times.markdown[round]))
  }
}

/** The stages one by one, to see where the time goes; nothing for a file that is not well formed. */
function stagesOf(file, bytes) {
  const procedure = parseProcedure({ file, bytes })
  if (!procedure.ok) return { jobs: {}, size: { states: 0, configurations: 0 } }
  const machine = compile(procedure.value)
  if (!machine.ok) return { jobs: {}, size: { states: 0, configurations: 0 } }
  const { report } = prove(machine.value, { file })
  return {
    size: { states: report.states, configurations: report.configurations },
    jobs: {
      language: () => parseProcedure({ file, bytes }),
      lower: () => compile(procedure.value),
      proof: () => prove(machine.value, { file })
    }
  }
}

function timed(job, calls) {
  const begin = performance.now()
  for (let call = 0; call < calls; call++) job()
  return (performance.now() - begin) / calls
}
