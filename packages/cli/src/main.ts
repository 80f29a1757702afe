import { CommanderError } from 'commander'
import { exit } from './exit.js'
import { program } from './program.js'
import { CannotRun } from './read-input.js'
import { sayError } from './say.js'

// A reader such as `head` that stops early is no failure of ours; a terminal that is gone takes nothing any more. In
// both cases there is nobody left to tell, and what was recorded is on the disk.
for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    process.exit(error.code === 'EPIPE' ? (process.exitCode ?? exit.well) : exit.couldNot)
  })
}

process.on('uncaughtException', (error) => {
  fail(error)
  process.exit()
})

try {
  const lockwright = await program(process.argv[2])
  await lockwright.parseAsync()
} catch (error) {
  fail(error)
}

function fail(error: unknown): void {
  if (error instanceof CommanderError) {
    // Help and version are answers; everything else that the parser throws is a command that could not be read.
    process.exitCode = error.exitCode === 0 ? exit.well : exit.couldNot
    return
  }
  // A store that fails says in its message what to do; its class is not loaded here, where most commands need none.
  if (error instanceof CannotRun || (error instanceof Error && error.name === 'StoreFailure')) sayError(error.message)
  else
    sayError(
      `this is a fault of lockwright itself, nothing was decided:\n${error instanceof Error ? error.stack : String(error)}`
    )
  process.exitCode = exit.couldNot
}
