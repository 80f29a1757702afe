import fc from 'fast-check'
import { PNG } from 'pngjs'
import { describe, expect, it } from 'vitest'
import { madeDrawing, madeJpeg, madePng } from './made-picture.fixture.js'
import { readPicture } from './read-picture.js'

const two = { width: 2, height: 1 }

function pixels(bytes: Uint8Array): readonly number[] {
  const read = readPicture(bytes)
  if (!read.ok || read.picture.kind !== 'pixels') throw new Error('no pixels')
  return [...read.picture.data]
}

function refusal(bytes: Uint8Array): string {
  const read = readPicture(bytes)
  return read.ok ? 'printed' : read.what
}

describe('a PNG', () => {
  it('is unpacked to red, green and blue', () => {
    expect(pixels(madePng(two, 2, [[0, 1, 2, 3, 4, 5, 6]]))).toEqual([1, 2, 3, 4, 5, 6])
  })

  it('shows the paper where it is transparent', () => {
    expect(pixels(madePng(two, 6, [[0, 10, 20, 30, 0, 10, 20, 30, 255]]))).toEqual([255, 255, 255, 10, 20, 30])
    expect(pixels(madePng(two, 4, [[0, 0, 0, 0, 255]]))).toEqual([255, 255, 255, 0, 0, 0])
  })

  it('may be grey, have a palette, and few bits a pixel', () => {
    expect(pixels(madePng(two, 0, [[0, 0b10000000]], { bits: 1 }))).toEqual([255, 255, 255, 0, 0, 0])
    const chunks = { PLTE: [9, 8, 7, 1, 2, 3], tRNS: [255, 0] }
    expect(pixels(madePng(two, 3, [[0, 0b01000000]], { bits: 1, chunks }))).toEqual([9, 8, 7, 255, 255, 255])
  })

  it('is read as pngjs reads it, whatever filters it was written with', () => {
    const picture = fc
      .tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 }))
      .chain(([width, height]) =>
        fc.tuple(
          fc.constant({ width, height }),
          fc.uint8Array({ minLength: width * height * 4, maxLength: width * height * 4 }),
          fc.constantFrom(0, 1, 2, 3, 4)
        )
      )
    fc.assert(
      fc.property(picture, ([size, data, filterType]) => {
        const png = new PNG(size)
        png.data = Buffer.from(data)
        const written = PNG.sync.write(png, { filterType, colorType: 6 })
        const outside = PNG.sync.read(written).data
        const wanted = Array.from({ length: size.width * size.height }, (_, at) => {
          const alpha = outside[4 * at + 3] ?? 0
          return [0, 1, 2].map((each) => 255 - Math.round(((255 - (outside[4 * at + each] ?? 0)) * alpha) / 255))
        })
        expect(pixels(written)).toEqual(wanted.flat())
      }),
      { seed: 20261126, numRuns: 60 }
    )
  })

  it.each([
    ['breaks off', (whole: Buffer) => whole.subarray(0, whole.length - 9)],
    ['was changed in one byte', (whole: Buffer) => Buffer.from(whole.map((byte, at) => (at === 45 ? byte ^ 1 : byte)))]
  ])('is refused where it %s', (_, spoil) => {
    expect(refusal(spoil(madePng(two, 2, [[0, 1, 2, 3, 4, 5, 6]])))).toContain('damaged')
  })

  it('is refused where it unpacks to more or less than its size says', () => {
    expect(refusal(madePng(two, 2, [[0, 1, 2, 3, 4, 5, 6, ...Array(100_000).fill(0)]]))).toContain('cannot be unpacked')
    expect(refusal(madePng(two, 2, [[0, 1, 2]]))).toContain('cannot be unpacked')
    expect(refusal(madePng(two, 2, [[7, 1, 2, 3, 4, 5, 6]]))).toContain('cannot be unpacked')
    expect(refusal(madePng({ width: 100_000, height: 100_000 }, 2, [[0]]))).toContain('pixels')
  })

  it('is refused where it is interlaced, or its palette is missing', () => {
    expect(refusal(madePng(two, 2, [[0, 1, 2, 3, 4, 5, 6]], { interlace: 1 }))).toContain('interlaced')
    expect(refusal(madePng(two, 3, [[0, 0, 0]]))).toContain('palette')
  })
})

describe('a JPEG', () => {
  it('is taken as it is, with its size', () => {
    const data = madeJpeg(640, 480, 3)
    expect(readPicture(data)).toEqual({
      ok: true,
      picture: { kind: 'jpeg', width: 640, height: 480, components: 3, data }
    })
  })

  it('is refused where it breaks off, is made for presses, or is too large', () => {
    expect(refusal(madeJpeg(640, 480, 3).subarray(0, 20))).toContain('breaks off')
    expect(refusal(madeJpeg(640, 480, 4))).toContain('neither grey nor')
    expect(refusal(madeJpeg(60_000, 60_000, 3))).toContain('pixels')
    expect(refusal(madeJpeg(0, 480, 3))).toContain('no size')
  })
})

describe('a drawing', () => {
  it('is taken with the size of its view box, or its own', () => {
    const read = readPicture(madeDrawing('<rect width="5" height="5"/>'))
    expect(read).toMatchObject({ ok: true, picture: { kind: 'drawing', width: 30, height: 20 } })
    const sized = readPicture(madeDrawing('<g/>', 'width="40mm" height="10mm"'))
    expect(sized).toMatchObject({ ok: true, picture: { width: 40, height: 10 } })
    expect(sized.ok && sized.picture.kind === 'drawing' && sized.picture.text).toContain('viewBox="0 0 40 10"')
  })

  it.each([
    ['<script>1</script>', 'script'],
    ['<svg:script/>', 'script'],
    ['<g onload="x()"/>', 'event'],
    ['<foreignObject/>', 'foreignObject'],
    ['<image href="#x"/>', 'picture'],
    ['<a href="#x"/>', 'link'],
    ['<use href="other.svg#x"/>', 'outside'],
    ['<use xlink:href="https://example.org/x"/>', 'outside'],
    ['<rect fill="url(https://example.org/x)"/>', 'outside'],
    ['<rect fill="url(data:x)"/>', 'outside'],
    ['<style>rect { fill: red }</style>', 'style sheet'],
    ['<rect fill="&#x75;rl(x)"/>', 'hides'],
    ['<animate/>', 'moves'],
    ['<!DOCTYPE svg>', 'document type'],
    ['<?xml-stylesheet href="x"?>', 'processing instruction'],
    ['<g><rect></g></rect>', 'not a whole'],
    ['<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>', 'repeat']
  ])('is refused with %s', (inside, what) => {
    expect(refusal(madeDrawing(inside))).toContain(what)
  })

  it('may use its own parts and name its own colors', () => {
    expect(
      refusal(madeDrawing('<defs><g id="a"><path d="M 0 0"/></g></defs><use href="#a"/><rect fill="url(#a)"/>'))
    ).toBe('printed')
  })

  it('is refused where it is too large or no text', () => {
    expect(refusal(madeDrawing(' '.repeat(600_000)))).toContain('bytes')
    expect(refusal(Buffer.concat([Buffer.from('<svg >'), Buffer.from([0xff, 0xfe])]))).toContain('UTF-8')
  })
})

it('tells what a file is by its bytes alone, and never throws', () => {
  expect(refusal(Buffer.from('GIF89a'))).toContain('neither PNG, JPEG nor SVG')
  expect(refusal(Buffer.alloc(0))).toContain('neither PNG, JPEG nor SVG')
  const starts = [madePng(two, 2, [[0, 1, 2, 3, 4, 5, 6]]), madeJpeg(3, 3, 3), madeDrawing('<g/>')]
  fc.assert(
    fc.property(fc.constantFrom(...starts), fc.nat(200), fc.nat(255), fc.nat(200), (whole, at, byte, length) => {
      const spoiled = Buffer.from(whole.subarray(0, Math.max(4, whole.length - length)))
      if (at < spoiled.length) spoiled[at] = byte
      expect(() => readPicture(spoiled)).not.toThrow()
    }),
    { seed: 20261126, numRuns: 500 }
  )
})
