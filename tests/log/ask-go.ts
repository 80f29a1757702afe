import { execFileSync } from 'node:child_process'
import { existsSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** Hashes are base64 on both sides, as `tlog.Hash` writes itself. */
export interface GoInclusion {
  readonly Index: number
  readonly Size: number
  readonly Path: readonly string[]
}

export interface GoConsistency {
  readonly First: number
  readonly Second: number
  readonly Path: readonly string[]
}

export interface GoNote {
  readonly Note: string
  readonly Key: string
}

export interface GoRequest {
  readonly Leaves?: readonly string[]
  readonly Inclusion?: readonly GoInclusion[]
  readonly Consistency?: readonly GoConsistency[]
  readonly Tiles?: readonly { readonly Folder: string; readonly Size: number }[]
  readonly Notes?: readonly GoNote[]
  readonly Sign?: readonly string[]
}

export interface GoAnswer {
  readonly Roots: readonly string[]
  readonly Inclusion: readonly GoInclusion[] | null
  readonly Consistency: readonly GoConsistency[] | null
  readonly Refused: readonly string[] | null
  readonly Signed: readonly GoNote[] | null
}

const library = '/usr/share/gocode'

/** Whether Debian's golang-go and golang-golang-x-mod-dev are here. */
export function goIsInstalled(): boolean {
  if (!existsSync(join(library, 'src/golang.org/x/mod/sumdb/tlog/tlog.go'))) return false
  try {
    execFileSync('go', ['version'], { stdio: 'ignore' })
    return true
  } catch {
    return false
  }
}

/** Builds the program beside this file once; `ask` runs it. */
export function buildGo(): { readonly ask: (request: GoRequest) => GoAnswer; readonly remove: () => void } {
  const folder = mkdtempSync(join(tmpdir(), 'lockwright-go-'))
  const program = join(folder, 'transparency-log')
  execFileSync('go', ['build', '-o', program, join(import.meta.dirname, 'transparency-log.go')], {
    env: { ...process.env, GO111MODULE: 'off', GOPATH: library, GOCACHE: join(folder, 'cache'), GOFLAGS: '' }
  })
  return {
    ask: (request) =>
      JSON.parse(
        execFileSync(program, { input: JSON.stringify(request), maxBuffer: 2 ** 28, encoding: 'utf8' })
      ) as GoAnswer,
    remove: () => rmSync(folder, { recursive: true, force: true })
  }
}
