import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { parseProcedure } from '@lockwright/language'
import type { Machine } from '@lockwright/machine'
import { compile } from '@lockwright/machine/lower'
import { typescriptOf } from '@lockwright/machine/typescript'
import ts from 'typescript'
import { describe, expect, it } from 'vitest'
import { walkPastTheFirstLock } from '../../examples/embed-typescript/host-program.js'

const root = new URL('../../', import.meta.url)
const examples = fileURLToPath(new URL('examples/embed-typescript/', root))

function boosterPump(): Machine {
  const file = 'procedures/booster-pump-precharge.md'
  const procedure = parseProcedure({ file, bytes: readFileSync(new URL(file, root)) })
  const machine = procedure.ok ? compile(procedure.value) : procedure
  if (!machine.ok) throw new Error(machine.diagnostics.map(({ what }) => what).join('\n'))
  return machine.value
}

/** The lines of one file of the example, with its text as given, that the type checker finds fault with. */
function faultyLines(file: string, text: string): number[] {
  const config = ts.readConfigFile(fileURLToPath(new URL('examples/tsconfig.json', root)), ts.sys.readFile)
  const { options } = ts.parseJsonConfigFileContent(config.config, ts.sys, fileURLToPath(new URL('examples', root)))
  const host = ts.createCompilerHost(options)
  const read = host.readFile
  host.readFile = (name) => (name === file ? text : read(name))
  const program = ts.createProgram([file], options, host)
  const source = program.getSourceFile(file)
  const faults = [...program.getSyntacticDiagnostics(source), ...program.getSemanticDiagnostics(source)]
  return [...new Set(faults.map(({ start = 0 }) => (source?.getLineAndCharacterOfPosition(start).line ?? 0) + 1))]
}

describe('build --as typescript', () => {
  it('gives the module that the example embeds', async () => {
    await expect(typescriptOf(boosterPump())).toMatchFileSnapshot(`${examples}booster-pump.generated.ts`)
  })

  it('gives types under which each marked line of the example does not compile, and all others do', () => {
    const file = `${examples}does-not-compile.ts`
    const text = readFileSync(file, 'utf8')
    const marked = text.split('\n').flatMap((line, index) => (line.includes('@ts-expect-error') ? [index + 1] : []))
    expect(marked).toHaveLength(8)
    expect(faultyLines(file, text)).toEqual([])
    // The fault stands in the statement behind the mark.
    expect(faultyLines(file, text.replaceAll('@ts-expect-error', ''))).toEqual(marked.map((line) => line + 1))
  })

  it('steps: the host program comes to the first lock and is not let past it', () => {
    const walk = walkPastTheFirstLock()
    expect(walk.ok).toBe(false)
    expect(walk.ok ? [] : walk.refusals.map(({ why }) => why)).toEqual(['No lock hangs on Q1.'])
  })

  it('keeps any text inside its comment or its string', () => {
    const hostile = `*/ export const x = 1 // ' " \` \${x} \\ \u2028 \n end`
    const machine = boosterPump()
    const text = typescriptOf({
      ...machine,
      title: hostile,
      states: machine.states.map((state) => ({ ...state, title: hostile }))
    })
    const { diagnostics, outputText } = ts.transpileModule(text, {
      reportDiagnostics: true,
      compilerOptions: { target: ts.ScriptTarget.ES2023, module: ts.ModuleKind.ESNext }
    })
    expect(diagnostics).toEqual([])
    expect(outputText.match(/^export /gm)).toHaveLength(1)
  })
})
