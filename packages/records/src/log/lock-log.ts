import type { RecordsResult } from '../result.js'
import { bad } from '../result.js'
import type { Site } from '../site.js'
import { lockForWriting } from '../writer-lock.js'
import { logFolder } from './log-folder.js'

/** Adding a leaf takes some milliseconds; whoever waits longer than this waits for something that hangs. */
const longestWait = 5000

/** Does `body` while no other process writes to the log; waits its turn. */
export function lockLog<Value>(site: Site, body: () => RecordsResult<Value>): RecordsResult<Value> {
  return lockInTurn(logFolder.leaves(site), 'the site log', body)
}

/** The same for any file that is held for moments only. `noun` names it in the fault. */
export function lockInTurn<Value>(file: string, noun: string, body: () => RecordsResult<Value>): RecordsResult<Value> {
  const until = performance.now() + longestWait
  for (;;) {
    const lock = lockForWriting(file)
    if (lock.ok) {
      try {
        return body()
      } finally {
        lock.release()
      }
    }
    if (performance.now() > until) {
      return bad({
        id: 'in-use',
        file,
        what: `Process ${lock.pid} on ${lock.host} is writing to ${noun}.`,
        danger: 'Two at once would spoil each other.',
        mend: `Try again in a moment. If no such process runs there any more, remove \`${lock.file}\`.`
      })
    }
    // Of two that came at once both may have withdrawn: not again at the same time.
    pause(5 + Math.random() * 25)
  }
}

function pause(milliseconds: number): void {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, milliseconds)
}
