import { obligations } from '@lockwright/proof'
import { describe, expect, it } from 'vitest'
import { filesUnder, importsOf } from './sources.js'

const folder = 'packages/proof/src/obligations'
const named = (end: RegExp) =>
  filesUnder(folder, end)
    .map(({ path }) => path.slice(folder.length + 1).replace(end, ''))
    .filter((name) => !['index', 'all'].includes(name))

describe('an obligation', () => {
  const ids = obligations.map(({ id }) => id)

  it('is one file and one page of the same name', () => {
    expect(named(/\.ts$/).filter((name) => !name.endsWith('.test'))).toEqual([...ids].sort())
    expect(named(/\.md$/)).toEqual([...ids].sort())
    expect(new Set(ids).size).toBe(ids.length)
  })

  it.each(ids)('%s says its id, its statement and its source on its page', (id) => {
    const [file] = filesUnder(folder, new RegExp(`/${id}\\.ts$`))
    const [page] = filesUnder(folder, new RegExp(`/${id}\\.md$`))
    expect(file?.text).toContain(`id: '${id}'`)
    expect(page?.text.split('\n')[0]).toBe(`# ${id}`)
    expect(file?.text.split('\n').length).toBeLessThanOrEqual(121)
  })

  it('imports no other obligation', () => {
    const wrong = filesUnder(folder, /\.ts$/)
      .filter(({ path }) => !/(index|all|\.test)\.ts$/.test(path))
      .flatMap(({ path, text }) =>
        importsOf(text)
          .filter((to) => to.startsWith('./'))
          .map((to) => `${path} imports ${to}`)
      )
    expect(wrong).toEqual([])
  })
})
