/**
 * One exploration of a machine (JSON on standard input) in a process of its own, so that what it keeps can be weighed:
 * `node --expose-gc explore-once.mjs`. Prints configurations, milliseconds (the best of three) and bytes kept.
 */
import { text } from 'node:stream/consumers'
import { explore } from '@lockwright/proof'

const machine = JSON.parse(await text(process.stdin))
const limit = 4_000_000
const weigh = () => {
  // Buffers are let go one collection after the arrays that held them.
  for (let round = 0; round < 3; round++) globalThis.gc()
  const { heapUsed, arrayBuffers } = process.memoryUsage()
  return heapUsed + arrayBuffers
}

explore(machine, limit)
let milliseconds = Number.POSITIVE_INFINITY
let kept = null
let bytes = 0
for (let round = 0; round < 3; round++) {
  kept = null
  const before = weigh()
  const begin = performance.now()
  kept = explore(machine, limit)
  milliseconds = Math.min(milliseconds, performance.now() - begin)
  bytes = weigh() - before
}
const { configurations, complete, breaches } = kept
process.stdout.write(JSON.stringify({ configurations, complete, breaches: breaches.length, milliseconds, bytes }))
