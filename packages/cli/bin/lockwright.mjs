#!/usr/bin/env node
import { existsSync } from 'node:fs'
import module from 'node:module'

const bundle = new URL('../dist/lockwright.mjs', import.meta.url)

if (existsSync(bundle)) {
  // Newer Node keeps the compiled bundle between calls; Node 20 has no such cache and starts well without it.
  module.enableCompileCache?.()
  await import(bundle.href)
} else {
  process.stderr.write(
    'lockwright: the command is not built yet; run `npm run build` in the folder of the workspace.\n'
  )
  process.exitCode = 2
}
