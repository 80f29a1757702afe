import { canonical } from '@lockwright/machine'
import { typescriptOf } from '@lockwright/machine/typescript'
import { type ExitCode, exit } from '../exit.js'
import { provedMachine } from '../proved-machine.js'
import { sayNote } from '../say.js'
import { writeOutput } from '../write-output.js'

export interface BuildOptions {
  readonly as: 'json' | 'typescript'
  readonly out?: string
}

export function build(file: string, options: BuildOptions): ExitCode {
  const proved = provedMachine(file)
  if (proved === null) return exit.findings
  const text = options.as === 'json' ? `${canonical(proved.machine)}\n` : typescriptOf(proved.machine)
  if (options.out === undefined) {
    process.stdout.write(text)
  } else {
    writeOutput(options.out, text)
    sayNote(`wrote ${options.out}`)
  }
  return exit.well
}
