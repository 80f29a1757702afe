import { printLabels, printTags } from '@lockwright/runner-paper'
import { describe, expect, it } from 'vitest'
import { type Box, optionsFor, outside, pdfOf, provedFile } from './printed.js'

const pump = provedFile('booster-pump-precharge.md')
const press = provedFile('baling-press-platen.md')

/** 29 CFR 1910.147(c)(5)(iii). */
const legends = ['DO NOT START', 'DO NOT OPEN', 'DO NOT CLOSE', 'DO NOT ENERGIZE', 'DO NOT OPERATE']

const codeOf = (machine: typeof pump, id: string): string =>
  `LOCKWRIGHT/1 ${machine.procedure} r${machine.revision} sha256:${optionsFor(machine).digest} at:${id}`

/** On A4: the lower halves of the backs, as the size of a tag (80 by 130 mm) and of the page put them. */
const tagBacks: readonly [Box, Box] = [
  [297, 230, 230, 200],
  [297, 600, 230, 200]
]

/** The boxes of labels of 95 by 50 mm, two across and five down, in the middle of the page. */
function labelBoxes(paper: 'a4' | 'letter', count: number): readonly Box[] {
  const [width, height] = paper === 'a4' ? [595.28, 841.89] : [612, 792]
  const [wide, high] = [(95 / 25.4) * 72, (50 / 25.4) * 72]
  return Array.from({ length: count }, (_, at) => [
    width / 2 - wide + (at % 2) * wide,
    height / 2 - high * 2.5 + Math.floor(at / 2) * high,
    wide,
    high
  ])
}

describe('the tags', () => {
  for (const machine of [pump, press]) {
    it(`are one for each isolating device of ${machine.procedure}, two on a page`, async () => {
      const seen = outside(pdfOf(await printTags(machine, { ...optionsFor(machine), paper: 'a4' })))
      try {
        const count = machine.points.length
        expect(seen.pages).toBe(Math.ceil(count / 2))
        for (const legend of legends) expect(seen.text.split(legend).length - 1, legend).toBe(count)
        for (const field of [
          'Lock and tag of (name)',
          'Department, telephone',
          'Hung on (date, time)',
          'Expected to be off by'
        ])
          expect(seen.text.split(field).length - 1, field).toBe(count)
        expect(seen.text.split('DANGER').length - 1).toBe(count)
        const codes = machine.points.map(
          (_, at) => seen.codes(1 + Math.floor(at / 2), [tagBacks[at % 2] ?? tagBacks[0]])[0]
        )
        expect(codes).toEqual(machine.points.map(({ id }) => codeOf(machine, id)))
        for (const { safe } of machine.points) expect(seen.text).toContain(safe)
      } finally {
        seen.close()
      }
    })
  }

  it('say in Spanish what must not be done', async () => {
    const seen = outside(pdfOf(await printTags(pump, { ...optionsFor(pump), language: 'es', paper: 'letter' })))
    seen.close()
    for (const legend of ['PELIGRO', 'NO ARRANCAR', 'NO ABRIR', 'NO CERRAR', 'NO CONECTAR', 'NO ACCIONAR'])
      expect(seen.text).toContain(legend)
  })

  it('warn of what stays charged behind a device', async () => {
    const seen = outside(pdfOf(await printTags(pump, { ...optionsFor(pump), paper: 'a4' })))
    seen.close()
    expect(seen.text.replace(/\s+/g, ' ')).toMatch(/dc-link: stored energy stays/)
  })
})

describe('the labels', () => {
  for (const paper of ['a4', 'letter'] as const) {
    it(`are one for each isolating device, ten on a page of ${paper}`, async () => {
      const seen = outside(pdfOf(await printLabels(press, { ...optionsFor(press), paper })))
      try {
        expect(seen.pages).toBe(1)
        expect(seen.codes(1, labelBoxes(paper, press.points.length))).toEqual(
          press.points.map(({ id }) => codeOf(press, id))
        )
        const text = seen.text.replace(/\s+/g, ' ')
        for (const { id, safe } of press.points) {
          expect(text).toContain(id)
          expect(text).toContain(safe.slice(0, 10))
        }
        expect(text).toContain('400 V ac')
      } finally {
        seen.close()
      }
    })
  }

  it('go on to a second page after ten', async () => {
    const many = provedFile('booster-pump-precharge.md', (text) =>
      text
        .replace(
          '  Q2: {',
          `${Array.from({ length: 8 }, (_, at) => `  X${at}: { is: valve, where: header ${at}, safe: shut }\n`).join('')}  Q2: {`
        )
        .replace('at: [V1]', 'at: [V1, X0, X1, X2, X3, X4, X5, X6, X7]')
        .replace(':::lock{at=Q1', ':::lock{at="Q1 X0 X1 X2 X3 X4 X5 X6 X7"')
        .replace('::unlock{at="V1', '::unlock{at="X0 X1 X2 X3 X4 X5 X6 X7 V1')
        .replace('::energize{at="V1', '::energize{at="X0 X1 X2 X3 X4 X5 X6 X7 V1')
    )
    const seen = outside(pdfOf(await printLabels(many, { ...optionsFor(many), paper: 'a4' })))
    seen.close()
    expect(seen.pages).toBe(2)
  })

  it('are refused where a text does not fit, and say which', async () => {
    const long = provedFile('booster-pump-precharge.md', (text) =>
      text.replace(
        'safe: handle at O',
        `safe: ${'handle turned until the mark stands at the letter O '.repeat(9).trim()}`
      )
    )
    const hung = await printLabels(long, { ...optionsFor(long), paper: 'a4' })
    expect(hung).toMatchObject({
      ok: false,
      faults: expect.arrayContaining([expect.stringContaining('`Q1`: Safe position')])
    })
  })

  it('of one generation leave out the devices of the other', async () => {
    const options = { ...optionsFor(press), for: { unit: 'series-a' }, paper: 'a4' } as Parameters<
      typeof printLabels
    >[1]
    const seen = outside(pdfOf(await printLabels(press, options)))
    const codes = seen.codes(1, labelBoxes('a4', 2))
    seen.close()
    expect(codes).toEqual([codeOf(press, 'Q1'), codeOf(press, 'V2')])
  })
})
