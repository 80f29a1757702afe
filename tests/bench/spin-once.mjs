/** One search of a model by SPIN: writing the search in C, compiling it and running it are timed apart. */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

const milliseconds = (job) => {
  const begin = performance.now()
  const result = job()
  return { took: performance.now() - begin, result }
}

export function searchOnce(model, configurations) {
  const folder = mkdtempSync(join(tmpdir(), 'lockwright-bench-'))
  const run = (program, ...args) => {
    const done = spawnSync(program, args, { cwd: folder, encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 })
    if (done.status !== 0) throw new Error(`${program}: ${done.error ?? done.stderr}`)
    return done.stdout
  }
  try {
    writeFileSync(join(folder, 'model.pml'), model)
    const written = milliseconds(() => run('spin', '-o1', '-o2', '-a', 'model.pml'))
    const compiled = milliseconds(() => run('gcc', '-O2', '-w', '-DSAFETY', '-DNOREDUCE', '-o', 'pan', 'pan.c'))
    // A way is no longer than there are configurations; the table is chosen so that it is not crowded.
    const bits = Math.max(16, Math.ceil(Math.log2(configurations)) + 1)
    const search = () => milliseconds(() => run('./pan', '-c0', `-m${10 * configurations + 10_000}`, `-w${bits}`))
    const searched = [search(), search(), search()].sort((one, other) => one.took - other.took)[0]
    const report = searched.result
    if (/max search depth too small|Search not completed/.test(report)) throw new Error(report)
    const number = (pattern) => Number(pattern.exec(report)?.[1])
    return {
      stored: number(/(\d+) states, stored/),
      errors: number(/errors: (\d+)/),
      stateVectorBytes: number(/State-vector (\d+) byte/),
      bytesForStates: number(/([\d.]+)\s+actual memory usage for states/) * 1024 * 1024,
      milliseconds: { write: written.took, compile: compiled.took, run: searched.took }
    }
  } finally {
    rmSync(folder, { recursive: true })
  }
}
