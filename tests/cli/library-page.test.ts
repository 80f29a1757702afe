import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { lockwright, root } from './transcript.js'

const page = readFileSync(join(root, 'procedures/README.txt'), 'utf8')
const lines = (/^```sh\n([\s\S]*?)^```$/m.exec(page)?.[1] ?? '').trim().split('\n')
const env = { LOCKWRIGHT_ROOT_PASSPHRASE: 'for tests only', LOCKWRIGHT_PASSPHRASE: 'for tests only' }

describe('the page of the demo library', () => {
  it('prints commands that work as they stand, one after the other', { timeout: 120_000 }, () => {
    const cwd = mkdtempSync(join(tmpdir(), 'lockwright-library-'))
    try {
      cpSync(join(root, 'procedures'), join(cwd, 'procedures'), { recursive: true })
      expect(lines.length).toBeGreaterThan(3)
      for (const line of lines) {
        const [npx, name, ...args] = [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(
          ([, quoted, plain]) => quoted ?? plain ?? ''
        )
        expect([npx, name]).toEqual(['npx', 'lockwright'])
        const { code, said } = lockwright(args, { cwd, env })
        // Nobody answers here, so the run stays open: that is exit code 1.
        const opened = args[0] === 'step'
        expect({ line, code }, said).toEqual({ line, code: opened ? 1 : 0 })
        if (opened) expect(said).toContain(', step 1 of')
      }
    } finally {
      rmSync(cwd, { recursive: true, force: true })
    }
  })
})
