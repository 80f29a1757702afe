import { execFileSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { folderImages } from '@lockwright/runner-paper'
import { PNG } from 'pngjs'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { isHere, provedFile, root, sheetOf, told, withFile } from './paper-tools.js'

const folder = mkdtempSync(join(tmpdir(), 'lockwright-procedure-'))
const text = readFileSync(join(root, 'procedures/booster-pump-precharge.md'), 'utf8')
const pictures = `# Lock out

![Left door of the cabinet; 1 at 30 40: handle of Q1; 2 at 62 18: hasp for the lock](pictures/door.png)

![Valve V1 in the suction header](pictures/valve.svg)

![A photograph of the gauge](pictures/gauge.jpg)

![Wiring that calls home](pictures/evil.svg)

![The plan of another site](../other/plan.png)
`

/** A picture whose two halves, one half transparent, can be found again in the file. */
function door(): Buffer {
  const png = new PNG({ width: 60, height: 40 })
  for (let at = 0; at < 60 * 40; at += 1) png.data.set(at % 60 < 30 ? [200, 30, 30, 255] : [0, 0, 200, 128], 4 * at)
  return PNG.sync.write(png)
}

beforeAll(() => {
  mkdirSync(join(folder, 'pictures'))
  writeFileSync(join(folder, 'pictures/door.png'), door())
  const drawing = (inside: string) => `<svg xmlns="http://www.w3.org/2000/svg" width="300" height="120">${inside}</svg>`
  writeFileSync(
    join(folder, 'pictures/valve.svg'),
    drawing('<path d="M 40 60 L 120 30 L 120 90 Z"/><text x="220" y="65" font-size="16">suction Ω</text>')
  )
  writeFileSync(join(folder, 'pictures/evil.svg'), drawing('<image href="https://example.org/x.png"/>'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

describe.runIf(['pdftoppm', 'pdfimages', 'pdfinfo', 'pdftotext'].every(isHere))('the pictures of a procedure', () => {
  it('are printed where they stand, with numbers and captions; what is refused is told by its alternate text', async () => {
    const plain = provedFile('plain.md', text)
    withFile(await sheetOf(plain), (file) => {
      execFileSync('pdftoppm', [
        '-jpeg',
        '-r',
        '30',
        '-f',
        '1',
        '-l',
        '1',
        '-singlefile',
        file,
        join(folder, 'pictures/gauge')
      ])
    })
    const images = folderImages(folder)
    const machine = provedFile('pictures.md', text.replace('# Lock out\n', pictures))
    const pdf = await sheetOf(machine, { images: images.load })
    const listed = withFile(pdf, (file) => told('pdfimages', '-list', file))
    expect(listed).toMatch(/image\s+60\s+40\s+rgb\s+3\s+8\s+image/)
    expect(listed).toMatch(/image\s+24\d\s+351\s+rgb\s+3\s+8\s+jpeg/)
    const words = withFile(pdf, (file) => told('pdftotext', '-raw', file, '-'))
    for (const told of ['Left door of the cabinet', '1 handle of Q1', '2 hasp for the lock', 'suction Ω'])
      expect(words).toContain(told)
    expect(words).toContain('Picture not printed: Wiring that calls home')
    expect(words).toContain('Picture not printed: The plan of another site')
    expect(images.faults().map(({ source }) => source)).toEqual(['pictures/evil.svg', '../other/plan.png'])
    expect(withFile(pdf, (file) => told('qpdf', '--check', file))).toContain('No syntax')
    expect(Buffer.from(pdf).toString('latin1')).toContain('/Alt (Valve V1 in the suction header)')
    expect(Buffer.compare(pdf, await sheetOf(machine, { images: folderImages(folder).load }))).toBe(0)
  })

  it('show the paper through what is transparent', async () => {
    const machine = provedFile('pictures.md', text.replace('# Lock out\n', pictures))
    const colors = withFile(await sheetOf(machine, { images: folderImages(folder).load }), (file, at) => {
      execFileSync('pdfimages', ['-png', file, join(at, 'image')])
      return PNG.sync.read(readFileSync(join(at, 'image-000.png'))).data
    })
    expect([...colors.subarray(0, 3)]).toEqual([200, 30, 30])
    // Half of blue 200 over white: 255 - (255 - 200) * 128 / 255.
    expect([...colors.subarray(4 * 45, 4 * 45 + 3)]).toEqual([127, 127, 227])
  })

  it('are told by their alternate text where nobody looks for them', async () => {
    const machine = provedFile('pictures.md', text.replace('# Lock out\n', pictures))
    const words = withFile(await sheetOf(machine), (file) => told('pdftotext', '-raw', file, '-'))
    expect(words).toContain('Picture: Valve V1 in the suction header')
  })
})
