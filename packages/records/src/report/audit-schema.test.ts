import { readFileSync, writeFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { auditSchema } from './audit-schema.js'

const file = new URL('../../schema/audit.schema.json', import.meta.url)
const text = `${JSON.stringify(auditSchema, null, 2)}\n`

it('is published as it is here; UPDATE_FIXTURES=1 writes it anew', () => {
  if (process.env['UPDATE_FIXTURES'] === '1') writeFileSync(file, text)
  expect(readFileSync(file, 'utf8')).toBe(text)
})
