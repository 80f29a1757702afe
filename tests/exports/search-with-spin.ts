import { execFile, spawnSync } from 'node:child_process'
import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { promisify } from 'node:util'

const run = promisify(execFile)

/** What a full search by SPIN found. */
export interface SpinSearch {
  /** Obligations whose assertion was violated, spelled as in our verdict. */
  readonly violated: ReadonlySet<string>
  /** States that SPIN stored: pairs of step and ledger. */
  readonly stored: number
  /** Line numbers of the model, from 1, that hold a statement which no way leads to. */
  readonly unreached: ReadonlySet<number>
  /** Ways that stand still where nothing can follow. */
  readonly blocked: boolean
}

function installed(program: string): boolean {
  return spawnSync(program, ['-v']).error === undefined
}

/** Whether SPIN and the C compiler that it needs (gcc, for its preprocessor) are installed. */
export function spinIsInstalled(): boolean {
  return installed('spin') && installed('gcc')
}

/** Searches the whole state space of a model and goes on after each violation. Throws where the search was not complete. */
export async function searchWithSpin(model: string, flags: readonly string[] = []): Promise<SpinSearch> {
  const folder = await mkdtemp(join(tmpdir(), 'lockwright-spin-'))
  try {
    await writeFile(join(folder, 'model.pml'), model)
    const at = { cwd: folder, maxBuffer: 256 * 1024 * 1024 }
    // -o1, -o2: SPIN leaves out nothing that it could do without, so that its states are exactly our configurations.
    const made = await run('spin', [...flags, '-o1', '-o2', '-a', 'model.pml'], at)
    if (/error/i.test(made.stdout + made.stderr)) throw new Error(`spin: ${made.stdout}${made.stderr}`)
    // gcc alone: tcc 0.9.27 compiles ten times faster, and leaves assertions out.
    await run('gcc', ['-O0', '-w', '-DSAFETY', '-DNOREDUCE', '-o', 'pan', 'pan.c'], at)
    return read((await run('./pan', ['-c0', '-m200000', '-w18'], at)).stdout)
  } finally {
    await rm(folder, { recursive: true })
  }
}

function read(report: string): SpinSearch {
  const stored = /(\d+) states, stored/.exec(report)?.[1]
  if (stored === undefined || /max search depth too small|Search not completed|out of memory/.test(report)) {
    throw new Error(`the search was not complete:\n${report.slice(0, 4000)}`)
  }
  const all = (pattern: RegExp): string[] => [...report.matchAll(pattern)].map((match) => match[1] ?? '')
  return {
    violated: new Set(all(/assertion violated (\w+)/g).map((flag) => flag.replaceAll('_', '-'))),
    stored: Number(stored),
    unreached: new Set(all(/^\tmodel\.pml:(\d+), state/gm).map(Number)),
    blocked: /invalid end state/.test(report.replace(/invalid end states\t/g, ''))
  }
}
