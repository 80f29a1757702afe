import { type Command, Option } from 'commander'
import { gathered } from '../gathered.js'
import type { EnergyFlags } from './energy.js'

const help = `
Of every energy source it reckons the stored energy and, where it falls by itself, the time to the safe level:
what goes in with its tolerance, the formula, the figures put in, the result with its range, and where the formula
stands. The worst end of every tolerance counts. With it come a comparison that can be felt, how dangerous such an
energy is by published thresholds, and which wait governs: the written one, the label's or the computed one.

A parameter that is not declared is named as missing, and what can be reckoned without it is given. What is taken
as usual (one standard atmosphere; the heat-ratio of air for a gas that is not named) is shown as such. A what-if puts a value in place of a declared one, or adds one, for this sheet alone:
  voltage=750V                   for every source that has a use for a voltage
  dc-link.voltage=750 V ± 5 %    for the source \`dc-link\` alone
  nitrogen.gas=nitrogen          which gas it is (the front matter has no key for it)
The names are those of the front matter (capacitance, voltage, bleed, inertia, speed, coast-down, friction-torque,
mass, height, rate, deflection, preload, volume, pressure, bleed-bore, gas-volume, precharge, temperature, ambient,
time-constant, surface, contact, safe-below ...) and these, which it has no key for: discharge-coefficient,
heat-ratio, atmosphere, bulk-modulus, column-height, element-capacitance, series, parallel, balancing, gas.

The procedure need not be proved: it is read and compiled, no more. \`lockwright check\` says whether it holds.

Examples:
  lockwright energy procedures/booster-pump-precharge.md
  lockwright energy procedures/booster-pump-precharge.md --what-if "dc-link.voltage=750 V" --what-if "bleed=22 kΩ"
  lockwright energy procedures/baling-press-platen.md --format json > energies.json
  lockwright energy procedures/booster-pump-precharge.md --format pdf --out energies.pdf
  lockwright energy procedures/booster-pump-precharge.md --svg curves     writes curves/dc-link.svg ...

\`--format json\` gives one line; numbers are in coherent SI units, levels of a curve in the unit it names:
  {"procedure","revision","title","equipment","digest","entries":[{"id","kind","parameters":[],"energy","magnitude",
  "felt","judgedBy","time","wait":{"seconds","because","writtenTooShort","grounds"},"further":[],"curve","findings":[],
  "advice":[]}],"remarks":[],"caution"}
  An outcome is {"kind":"computed","calculation":{...}}, or "not-computable" with what is missing, or "never" or
  "no-formula" with the reason.

Exit codes: 0 the sheet was made; 1 the text is not a procedure (the findings are shown); 2 could not run: a file or
a what-if cannot be read.

The figures replace no reading. The plant's rules, local codes and qualified people come first.`

export function energyCommand(lockwright: Command): void {
  lockwright
    .command('energy')
    .summary('reckon the stored energies of a procedure and the waits they ask for')
    .description('Print the calculation sheet of a procedure: each stored energy, each decay, each wait.')
    .argument('<file>', 'a procedure (Markdown)')
    .addOption(
      new Option('--format <format>', 'how to give the sheet').choices(['text', 'json', 'pdf']).default('text')
    )
    .option('-o, --out <file>', 'where to write it; needed for pdf, else standard output if left off')
    .option('--svg <folder>', 'also write the curve of each energy that falls as a picture, FOLDER/SOURCE.svg')
    .option('--what-if <name=value>', 'take this in place of what is declared; may be given several times', gathered)
    .addOption(new Option('--paper <size>', 'paper size of the pdf').choices(['a4', 'letter']).default('a4'))
    .addOption(
      new Option('--language <language>', 'language of the fixed wording of the pdf').choices(['en', 'es', 'de', 'fr'])
    )
    .addHelpText('after', help)
    .action(async (file: string, options: EnergyFlags) => {
      const { energy } = await import('./energy.js')
      process.exitCode = await energy(file, options)
    })
}
