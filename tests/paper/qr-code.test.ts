import { digestOf } from '@lockwright/machine'
import jsQR from 'jsqr'
import { describe, expect, it } from 'vitest'
import { isHere, pictures, provedFile, sheetOf } from './paper-tools.js'

const file = 'procedures/booster-pump-precharge.md'
/** jsqr has one export, which its CommonJS form holds as `default`. */
const decode = ((jsQR as unknown as { default?: typeof jsQR }).default ?? jsQR) as unknown as (
  data: Uint8ClampedArray,
  width: number,
  height: number
) => { readonly data: string } | null

describe.runIf(isHere('pdftoppm'))('the QR code, read by a library that did not draw it', () => {
  const machine = provedFile(file)
  const read = async (options: Parameters<typeof sheetOf>[1], resolution: number): Promise<string | undefined> => {
    const [page] = pictures(await sheetOf(machine, options), resolution, { only: 1, color: true })
    if (page === undefined) throw new Error('the sheet has a first page')
    return decode(new Uint8ClampedArray(page.data), page.width, page.height)?.data
  }
  const known = `LOCKWRIGHT/1 ${machine.procedure} r${machine.revision} sha256:${digestOf(machine)}`

  it('names procedure, revision and digest', async () => {
    expect(await read({}, 150)).toBe(known)
  })

  it('names the serial of the sheet where it has one, on Letter paper too', async () => {
    expect(await read({ serial: 'S-000017', paper: 'letter' }, 150)).toBe(`${known} sheet:S-000017`)
  })

  it('can be read from a coarse print', async () => {
    expect(await read({ serial: 'S-000017' }, 100)).toBe(`${known} sheet:S-000017`)
  })
})
