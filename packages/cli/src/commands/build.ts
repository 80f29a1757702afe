import { canonical, type Machine } from '@lockwright/machine'
import { dotOf, promelaOf, scxmlOf, svgOf, xstateOf } from '@lockwright/machine/exports'
import { typescriptOf } from '@lockwright/machine/typescript'
import { type ExitCode, exit } from '../exit.js'
import { provedMachine } from '../proved-machine.js'
import { sayNote } from '../say.js'
import { writeOutput } from '../write-output.js'

/** Every form that a machine can be written in, as text that ends with a line end. */
export const forms = {
  json: (machine: Machine) => `${canonical(machine)}\n`,
  typescript: typescriptOf,
  promela: promelaOf,
  scxml: scxmlOf,
  xstate: (machine: Machine) => `${JSON.stringify(xstateOf(machine), null, 2)}\n`,
  dot: dotOf,
  svg: svgOf
} as const satisfies Record<string, (machine: Machine) => string>

export interface BuildOptions {
  readonly as: keyof typeof forms
  readonly out?: string
}

export function build(file: string, options: BuildOptions): ExitCode {
  const proved = provedMachine(file)
  if (proved === null) return exit.findings
  const text = forms[options.as](proved.machine)
  if (options.out === undefined) {
    process.stdout.write(text)
  } else {
    writeOutput(options.out, text)
    sayNote(`wrote ${options.out}`)
  }
  return exit.well
}
