import { describe, expect, test } from 'vitest'
import type { EnergyKind } from '../energy-parameters.js'
import { readEnergySource } from '../read-parameter.js'
import { curvePlot } from './curve-plot.js'
import { curvePoints, type DecayCurve } from './curve-points.js'
import { curveSvg } from './curve-svg.js'

function curveOf(kind: EnergyKind, texts: Readonly<Record<string, string>>): DecayCurve {
  const read = readEnergySource(kind, texts)
  const curve = read.ok ? curvePoints(read.value) : undefined
  if (curve === undefined) throw new Error('no curve')
  return curve
}

const link = curveOf('capacitor', {
  capacitance: '9.4 mF ± 20 %',
  voltage: '930 V dc ± 5 %',
  bleed: '18 kΩ ± 5 %'
})

describe('points', () => {
  test('the slow curve in closed form, in volts and seconds', () => {
    const { slow, fast } = link
    expect(slow[0]).toEqual({ seconds: 0, level: 976.5 })
    expect(fast[0]).toEqual({ seconds: 0, level: 883.5 })
    for (const { seconds, level } of slow) expect(level / (976.5 * Math.exp(-seconds / 213.192))).toBeCloseTo(1, 9)
    for (const { seconds, level } of fast)
      expect(level / (883.5 * Math.exp(-seconds / (17_100 * 0.00752)))).toBeCloseTo(1, 9)
  })

  test('speeds in rpm, temperatures in °C, pressures in bar above ambient', () => {
    const rotor = curveOf('rotating', { speed: '1500 rpm', 'coast-down': '90 s' })
    expect(rotor).toMatchObject({ unit: 'rpm', safe: 0, safeAfter: 90 })
    expect(rotor.slow[0]?.level).toBeCloseTo(1500, 9)
    const oven = curveOf('thermal', { temperature: '180 °C', ambient: '30 °C', 'time-constant': '20 min' })
    expect(oven).toMatchObject({ unit: '°C' })
    expect(oven.slow[0]?.level).toBeCloseTo(180, 9)
    const vessel = {
      volume: '12 L',
      'bleed-bore': '4 mm',
      temperature: '20 °C',
      gas: 'air',
      'discharge-coefficient': '0.8'
    }
    const gauge = curveOf('gas', { ...vessel, pressure: '7 bar' })
    const absolute = curveOf('gas', { ...vessel, pressure: '8.01325 bara' })
    expect(gauge.slow[0]?.level).toBeCloseTo(7, 9)
    expect(gauge.slow.at(-1)?.level).toBeCloseTo(0.1, 9)
    // The same vessel, told the other way.
    expect(absolute.slow.at(-1)?.seconds).toBeCloseTo(gauge.slow.at(-1)?.seconds ?? 0, 6)
    expect(gauge.slow.at(-1)?.seconds).toBeCloseTo(gauge.safeAfter, 9)
  })

  test('nothing to plot where nothing falls by itself', () => {
    for (const [kind, texts] of [
      ['gravity', { mass: '9 kg', height: '1 m' }],
      ['capacitor', { capacitance: '1 mF', voltage: '40 V dc', bleed: '1 kΩ' }],
      ['gas', { pressure: '7 bar', volume: '12 L' }]
    ] as const) {
      const read = readEnergySource(kind, texts)
      expect(read.ok && curvePoints(read.value)).toBeUndefined()
    }
  })
})

describe('layout', () => {
  const plot = curvePlot(link, { width: 400, height: 200, labelWait: 900 })

  test('every mark lies on the page', () => {
    const points = plot.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.at] : mark.points))
    for (const { x, y } of points) {
      expect(x).toBeGreaterThanOrEqual(0)
      expect(x).toBeLessThanOrEqual(400)
      expect(y).toBeGreaterThanOrEqual(0)
      expect(y).toBeLessThanOrEqual(200)
    }
  })

  test('the slow line meets the safe level where the worst-case time is marked', () => {
    const lines = plot.marks.flatMap((mark) => (mark.kind === 'line' ? [mark] : []))
    const safe = lines.find(({ use }) => use === 'safe')?.points[0]?.y ?? 0
    const wait = lines.find(({ use }) => use === 'wait')?.points[0]?.x ?? 0
    const slow = lines.find(({ use }) => use === 'slow')?.points ?? []
    const after = slow.findIndex(({ x }) => x >= wait)
    expect(slow[after]?.y).toBeGreaterThanOrEqual(safe - 0.011)
    expect(slow[after - 1]?.y).toBeLessThanOrEqual(safe)
    expect(lines.filter(({ use }) => use === 'wait').length).toBe(2)
  })

  test('axes have four to ten round numbers and units', () => {
    const texts = plot.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []))
    expect(texts).toEqual(
      expect.arrayContaining(['0', '200', '400', '1000', '5', '10', '15', 'Voltage, V', 'time, min', 'safe 50 V'])
    )
    expect(plot.description).toBe('In the worst case it takes 10.6 min to fall to 50 V.')
  })
})

describe('SVG', () => {
  const svg = curveSvg(link, { title: 'Link <DC> & "bus"' })

  test('one closed picture with a title, well formed', () => {
    expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" viewBox="0 0 480 280"/)
    expect(svg).toContain('<title>Link &lt;DC&gt; &amp; &quot;bus&quot;</title>')
    const open: string[] = []
    for (const [, closing, name = '', selfClosing] of svg.matchAll(/<(\/?)([a-z]+)[^>]*?(\/?)>/g)) {
      if (closing === '/') expect(open.pop()).toBe(name)
      else if (selfClosing !== '/') open.push(name)
    }
    expect(open).toEqual([])
    expect(svg).not.toMatch(/NaN|Infinity|undefined/)
  })

  test('the same bytes for the same curve', () => {
    expect(curveSvg(link)).toBe(curveSvg(link))
  })
})
