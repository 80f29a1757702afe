import { describe, expect, it } from 'vitest'
import { packageNames } from './sources.js'

/** What others can import. A name that appears or goes is a change of the interface, so the list is kept in a file. */
describe('the public names of the packages', () => {
  it('are those of public-names.txt', async () => {
    const lists = await Promise.all(
      packageNames.map(async (name) => {
        const module = (await import(`@lockwright/${name}`)) as Record<string, unknown>
        return [
          `@lockwright/${name}`,
          ...Object.keys(module)
            .sort()
            .map((key) => `  ${key}`)
        ].join('\n')
      })
    )
    await expect(`${lists.join('\n\n')}\n`).toMatchFileSnapshot('public-names.txt')
  })
})
