/**
 * Bundles the command so that `check` starts fast: one small entry, and a chunk for each command, loaded only
 * when that command runs. The PDF library reads fonts and metrics from beside itself, so the paper runner stays
 * a package of its own and is imported when something is printed. So does the database store its SQL.
 */
import { rmSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'

const here = dirname(fileURLToPath(import.meta.url))
const out = join(here, 'dist')

rmSync(join(out, 'chunks'), { recursive: true, force: true })

await build({
  entryPoints: { lockwright: join(here, 'src/main.ts') },
  outdir: out,
  outExtension: { '.js': '.mjs' },
  chunkNames: 'chunks/[name]-[hash]',
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20.19',
  minify: true,
  keepNames: false,
  legalComments: 'none',
  logLevel: 'warning',
  conditions: ['@lockwright/source'],
  // ink asks for its developer tools only where DEV=true, from a chunk that is never loaded here.
  external: ['@lockwright/runner-paper', '@lockwright/records/postgres', 'react-devtools-core'],
  define: { 'process.env.NODE_ENV': '"production"' },
  banner: {
    js: 'import{createRequire as __createRequire}from"node:module";const require=__createRequire(import.meta.url);'
  }
})
