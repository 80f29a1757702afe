import type { ProvedMachine } from '@lockwright/proof'
import type { PrintOptions, SkeletonDifference } from '@lockwright/runner-paper'
import { provedMachine } from './proved-machine.js'
import { CannotRun } from './read-input.js'
import { sayError } from './say.js'

export interface TranslationFlags {
  readonly languages?: string
  readonly with?: string
}

interface Translation {
  readonly file: string
  readonly machine: ProvedMachine
}

/** The translation to set beside a procedure; undefined where none was asked for, null once its findings were printed. */
export function readTranslation(
  file: string,
  { language }: ProvedMachine,
  flags: TranslationFlags
): Translation | null | undefined {
  if (flags.languages === undefined && flags.with === undefined) return undefined
  if (flags.with === undefined || flags.languages === undefined) {
    throw new CannotRun(
      'two languages side by side need both: name them with --languages and the translation with --with.'
    )
  }
  const proved = provedMachine(flags.with)
  if (proved === null) return null
  const wanted = flags.languages.split(',').map((each) => each.trim())
  const found = [language, proved.machine.language]
  if (wanted.length !== 2 || wanted.some((each, index) => each !== found[index])) {
    throw new CannotRun(
      `--languages says ${flags.languages}, but ${file} is in \`${found[0]}\` and ${flags.with} in \`${found[1]}\`: say --languages ${found.join(',')}, or mend \`language:\` in the front matter.`
    )
  }
  return { file: flags.with, machine: proved.machine }
}

/** The sheet in both languages; null once it was said where the translation does something else. */
export async function besideTranslation(
  file: string,
  machine: ProvedMachine,
  translation: Translation,
  options: PrintOptions
): Promise<Uint8Array | null> {
  const { printSideBySide } = await import('@lockwright/runner-paper')
  const printed = await printSideBySide(machine, translation.machine, options)
  if (printed.ok) return printed.pdf
  sayError(refusal(file, translation.file, printed.difference))
  return null
}

function refusal(file: string, other: string, { what, line, otherLine }: SkeletonDifference): string {
  const at = (name: string, place: number | null): string => (place === null ? name : `${name}:${place}`)
  return [
    `${at(other, otherLine)}: this is no translation of ${at(file, line)}: ${what}.`,
    'Two people who read the two columns of one sheet would do different things, and the boxes stand for both.',
    'Bring the translation to the same steps, devices, sources, roles and limits in the same order; only its words may differ.'
  ].join(' ')
}
