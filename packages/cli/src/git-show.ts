import { execFileSync } from 'node:child_process'
import { basename, dirname } from 'node:path'
import { CannotRun } from './read-input.js'

/** Larger than any procedure may be. */
const mostBytes = 1024 * 1024

/** The bytes that a file had in a revision of the git repository in which it lies. */
export function gitShow(file: string, revision: string): Buffer {
  if (revision === '' || revision.startsWith('-')) throw new CannotRun(`\`${revision}\` is not a git revision.`)
  try {
    return execFileSync('git', ['show', '--no-textconv', `${revision}:./${basename(file)}`], {
      cwd: dirname(file),
      maxBuffer: mostBytes,
      stdio: ['ignore', 'pipe', 'pipe']
    })
  } catch (error) {
    throw new CannotRun(`cannot read ${file} at \`${revision}\`: ${saidBy(error)}`)
  }
}

function saidBy(error: unknown): string {
  if (!(error instanceof Error)) return String(error)
  if ('code' in error && error.code === 'ENOENT') return 'git cannot be run here, or there is no such folder'
  const said = 'stderr' in error && error.stderr instanceof Buffer ? error.stderr.toString('utf8').trim() : ''
  return said === '' ? error.message : said.replace(/^fatal: /, '')
}
