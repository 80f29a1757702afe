import { describe, expect, test } from 'vitest'
import type { EnergyKind, EnergyParameters } from '../energy-parameters.js'
import { readEnergySource } from '../read-parameter.js'
import { type DecayObservation, judgeDecay } from './judge-decay.js'

function read(kind: EnergyKind, texts: Readonly<Record<string, string>>): EnergyParameters {
  const source = readEnergySource(kind, texts)
  if (!source.ok) throw new Error(source.why.join(' '))
  return source.value
}

const link = read('capacitor', { capacitance: '9.4 mF ± 20 %', voltage: '930 V dc', bleed: '18 kΩ ± 5 %' })

function told(source: EnergyParameters, observation: DecayObservation): string {
  const judged = judgeDecay(source, observation)
  return judged.kind === 'judged' ? judged.says.join(' ') : judged.kind
}

const levels = (...rows: readonly (readonly [number, number])[]) => rows.map(([seconds, level]) => ({ seconds, level }))

describe('what a technician is told', () => {
  test('when it should be safe', () => {
    const readings = [0, 60, 120].map((seconds) => ({ seconds, level: 930 * Math.exp(-seconds / 180) }))
    expect(told(link, { readings, accuracy: { share: 0.005 } })).toMatch(
      /^It should be below the safe level about 6 min 47 s after the last reading, and after \d+ min( \d+ s)? at the latest .* Only a reading is proof\.$/
    )
    expect(told(link, { readings: readings.slice(0, 2) })).toContain('cannot be told from two readings')
  })

  test('an open bleed resistor, and no date beside it', () => {
    const text = told(link, { readings: levels([0, 930], [60, 928], [120, 926]), accuracy: { share: 0.001 } })
    expect(text).toContain('It has stopped falling at 926 V: it may still be fed, or its bleed resistor may be open.')
    expect(text).toContain('slower than the worst case of what is declared: a bleed resistor may be open')
    expect(text).toContain('Do not wait for it')
    expect(text).not.toContain('should be below')
  })

  test('a shut valve', () => {
    const tank = read('gas', {
      pressure: '7 bar',
      volume: '500 L',
      'bleed-bore': '6 mm',
      temperature: '20 °C',
      gas: 'air',
      'discharge-coefficient': '0.8'
    })
    const text = told(tank, { readings: levels([0, 7e5], [30, 6.95e5], [60, 6.93e5]), accuracy: { fixed: 2000 } })
    expect(text).toContain('It has stopped falling at 6.93 bar: a valve may be shut or a line blocked')
  })

  test('a vessel that vents as it should gives no sign', () => {
    const tank = read('gas', {
      pressure: '7 bar',
      volume: '500 L',
      'bleed-bore': '6 mm',
      temperature: '20 °C',
      gas: 'air',
      'discharge-coefficient': '0.8'
    })
    // B1 of the reference: time constant 111.287 s, isothermal.
    const at = (seconds: number): number => 801_325 * Math.exp(-seconds / 111.287) - 101_325
    const text = told(tank, { readings: [0, 30, 60].map((seconds) => ({ seconds, level: at(seconds) })) })
    expect(text).toMatch(/^It should be below/)
  })

  test('dielectric absorption', () => {
    const observation = { readings: levels([0, 0.1], [600, 21]), shortedAt: [0], accuracy: { fixed: 0.2 } }
    expect(told(link, observation)).toBe(
      'It rose from 0.1 V to 21 V after the short was taken off: dielectric absorption gives charge back, or it is still fed. Keep it shorted while work goes on. The last reading is below the safe level. Verify it as the procedure asks.'
    )
  })

  test('a rotor that something drives, in rpm', () => {
    const rotor = read('rotating', { inertia: '2 kg m2', speed: '1500 rpm', 'friction-torque': '1.5 N·m' })
    const rpm = Math.PI / 30
    const text = told(rotor, { readings: levels([0, 1500 * rpm], [30, 1490 * rpm], [60, 1489 * rpm]) })
    expect(text).toContain('stopped falling at 1489 rpm: something may still drive it')
  })

  test('a hot body', () => {
    const oven = read('thermal', { temperature: '150 °C', ambient: '23 °C', 'time-constant': '1960 s' })
    const kelvin = (seconds: number): number => 296.15 + 127 * Math.exp(-seconds / 1960)
    const readings = [0, 900].map((seconds) => ({ seconds, level: kelvin(seconds) }))
    // T3 of the reference: 48 °C after 3185.61 s.
    expect(told(oven, { readings })).toContain('about 38 min 6 s after the last reading')
  })
})

describe('sources whose readings tell nothing of a decay', () => {
  test.each<[EnergyKind, Record<string, string>, string]>([
    ['electrical', { voltage: '690 V ac' }, 'not-decaying'],
    ['battery', { voltage: '48 V dc' }, 'not-decaying'],
    ['gravity', { mass: '9 kg' }, 'not-decaying'],
    ['spring', { rate: '50 N/mm' }, 'not-decaying'],
    ['thermal', { temperature: '150 °C' }, 'not-computable'],
    ['magnet', { inductance: '2 H', 'safe-below': '1 J' }, 'not-computable'],
    ['magnet', { inductance: '2 H' }, 'not-computable'],
    ['other', {}, 'not-computable']
  ])('%s with %j is %s', (kind, texts, expected) => {
    expect(judgeDecay(read(kind, texts), { readings: levels([0, 10], [1, 9]) }).kind).toBe(expected)
  })
})
