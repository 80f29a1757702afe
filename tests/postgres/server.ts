import { execFileSync, spawn } from 'node:child_process'
import { once } from 'node:events'
import { chownSync, existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'

/** A real PostgreSQL of this test file alone: in a folder of its own, on a unix socket in it, and on nothing else. */
export interface Server {
  /** Address of a database on it, as that user; the owner of all is `postgres`. */
  url(database: string, user?: string): string
  /** Makes an empty database. */
  create(database: string): void
  /** Runs SQL with psql, as that user; gives its output, or throws what it said. */
  sql(database: string, text: string, user?: string): string
  stop(): Promise<void>
}

const installed = '/usr/lib/postgresql'

/** The newest PostgreSQL that Debian has put here; null: none. */
export const postgresPrograms: string | null =
  (existsSync(installed) ? readdirSync(installed) : [])
    .filter((version) => existsSync(join(installed, version, 'bin/initdb')))
    .toSorted((a, b) => Number(b) - Number(a))
    .map((version) => join(installed, version, 'bin'))[0] ?? null

export async function startServer(): Promise<Server> {
  if (postgresPrograms === null) throw new Error('PostgreSQL is not installed: apt-get install postgresql')
  const programs = postgresPrograms
  const folder = mkdtempSync(join(tmpdir(), 'lockwright-pg-'))
  const data = join(folder, 'data')
  mkdirSync(data, { mode: 0o700 })
  // initdb refuses to run as root.
  const owner = process.getuid?.() === 0 ? ownerIds() : null
  if (owner !== null) for (const path of [folder, data]) chownSync(path, owner.uid, owner.gid)
  const env = { PATH: process.env['PATH'], LC_ALL: 'C.UTF-8', TZ: 'UTC' }
  execFileSync(
    join(programs, 'initdb'),
    ['--no-sync', '--no-instructions', '--auth=trust', '--username=postgres', '--encoding=UTF8', data],
    { ...(owner ?? {}), env, cwd: folder, stdio: ['ignore', 'ignore', 'pipe'] }
  )
  // The shell stands between, so that a test that is killed leaves nothing behind: when the pipe closes, it stops the
  // server and takes the folder away.
  const script = `"$@" & server=$!
    read -r _
    kill -INT $server 2>/dev/null
    wait $server
    cd / && rm -rf "$0"`
  const settings = {
    listen_addresses: '',
    unix_socket_directories: folder,
    fsync: 'off',
    full_page_writes: 'off',
    max_connections: '60',
    shared_buffers: '128MB'
  }
  const options = Object.entries(settings).flatMap(([name, value]) => ['-c', `${name}=${value}`])
  const child = spawn('sh', ['-c', script, folder, join(programs, 'postgres'), '-D', data, ...options], {
    ...(owner ?? {}),
    env,
    cwd: folder,
    stdio: ['pipe', 'ignore', 'pipe']
  })
  await ready(child.stderr)
  child.stderr.resume()
  const url = (database: string, user = 'postgres'): string =>
    `postgres://${user}@localhost/${database}?host=${encodeURIComponent(folder)}`
  const sql = (database: string, text: string, user = 'postgres'): string =>
    execFileSync(
      join(programs, 'psql'),
      ['-X', '-q', '-A', '-t', '-v', 'ON_ERROR_STOP=1', '-h', folder, '-U', user, '-d', database],
      { input: text, encoding: 'utf8', env, stdio: ['pipe', 'pipe', 'pipe'] }
    )
  return {
    url,
    sql,
    create: (database) => void sql('postgres', `CREATE DATABASE ${database}`),
    stop: async () => {
      const ended = once(child, 'exit')
      child.stdin.end()
      await ended
      rmSync(folder, { recursive: true, force: true })
    }
  }
}

function ownerIds(): { readonly uid: number; readonly gid: number } {
  const id = (flag: string): number => Number(execFileSync('id', [flag, 'postgres'], { encoding: 'utf8' }))
  return { uid: id('-u'), gid: id('-g') }
}

async function ready(errors: NodeJS.ReadableStream): Promise<void> {
  const said: string[] = []
  for await (const line of createInterface({ input: errors })) {
    said.push(line)
    if (line.includes('ready to accept connections')) return
  }
  throw new Error(`PostgreSQL did not start:\n${said.join('\n')}`)
}
