import { describe, it } from 'vitest'
import { conformance } from './conformance.js'
import { memoryStore } from './memory-store.js'

describe('the store in memory', () => {
  it.each(conformance)('$promise', async ({ check }) => {
    const store = memoryStore()
    await check({ store, again: async () => store })
  })
})
