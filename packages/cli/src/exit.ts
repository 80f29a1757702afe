/** What every command ends with. */
export const exit = {
  /** All well. */
  well: 0,
  /** The command ran and found something that has to change. */
  findings: 1,
  /** The command could not do its work: a file that cannot be read, a wrong option, a missing passphrase. */
  couldNot: 2
} as const

export type ExitCode = (typeof exit)[keyof typeof exit]

/** The graver of two endings. */
export function graver(one: ExitCode, other: ExitCode): ExitCode {
  return one > other ? one : other
}
