/**
 * `node tests/bench/energy.mjs`: a thousand calculations, each with its interval, inputs, figures and source, beside
 * the bare formulas at both ends of the tolerances, in one process and in turns. The ratio is the median over rounds.
 */
import { mkdirSync, writeFileSync } from 'node:fs'
import { cpus } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { readEnergySource, relieveTime, storedEnergy } from '@lockwright/energy'
import { median } from './median.mjs'

const count = 1000

/** Five kinds in turn; the numbers differ from one to the next, so that nothing can be remembered. */
const kinds = [
  {
    kind: 'capacitor',
    texts: (n) => ({ capacitance: `${1 + n} µF ± 20 %`, voltage: '930 V dc ± 5 %', bleed: '18 kΩ ± 5 %' }),
    reckon: relieveTime,
    bare: (n) => {
      const at = (c, v, r) => r * c * Math.log(v / 50)
      return [at((1 + n) * 0.8e-6, 883.5, 17_100), at((1 + n) * 1.2e-6, 976.5, 18_900)]
    }
  },
  {
    kind: 'capacitor',
    texts: (n) => ({ capacitance: `${1 + n} µF ± 20 %`, voltage: '930 V dc ± 5 %' }),
    reckon: storedEnergy,
    bare: (n) => [0.5 * (1 + n) * 0.8e-6 * 883.5 ** 2, 0.5 * (1 + n) * 1.2e-6 * 976.5 ** 2]
  },
  {
    kind: 'rotating',
    texts: (n) => ({ inertia: `${1 + n} kg m2 ± 10 %`, speed: '1500 rpm' }),
    reckon: storedEnergy,
    bare: (n) => [0.5 * (1 + n) * 0.9 * (50 * Math.PI) ** 2, 0.5 * (1 + n) * 1.1 * (50 * Math.PI) ** 2]
  },
  {
    kind: 'gas',
    texts: (n) => ({ pressure: '7 bar ± 10 %', volume: `${1 + n} L` }),
    reckon: storedEnergy,
    bare: (n) => {
      const at = (p) => ((p * (1 + n)) / 1000 / 0.4) * (1 - (101_325 / p) ** (0.4 / 1.4))
      return [at(731_325), at(871_325)]
    }
  },
  {
    kind: 'thermal',
    texts: (n) => ({ temperature: '150 °C', ambient: '23 °C', 'time-constant': `${1 + n} s ± 10 %` }),
    reckon: relieveTime,
    bare: (n) => [0.9 * (1 + n) * Math.log(127 / 25), 1.1 * (1 + n) * Math.log(127 / 25)]
  }
]

const jobs = Array.from({ length: count }, (_, n) => {
  const { kind, texts, reckon, bare } = kinds[n % kinds.length]
  const source = readEnergySource(kind, texts(n))
  if (!source.ok) throw new Error(source.why.join(' '))
  return { source: source.value, reckon, bare: () => bare(n) }
})

/** The worst end, whichever function it came from. */
function worst(found) {
  if (found.kind !== 'computed') throw new Error(found.kind)
  return found.seconds ?? found.joules.high
}

/** Microseconds a calculation; `ratio` is ours over the bare formulas. */
export function measureEnergy({ warmUp = 5, rounds = 31 } = {}) {
  for (const { source, reckon, bare } of jobs) {
    const [, high] = bare()
    const ours = worst(reckon(source))
    if (Math.abs(ours / high - 1) > 1e-9) throw new Error(`${source.kind}: ${ours} is not ${high}`)
  }
  const whole = () => jobs.reduce((sum, { source, reckon }) => sum + worst(reckon(source)), 0)
  const plain = () => jobs.reduce((sum, { bare }) => sum + bare()[1], 0)
  for (let round = 0; round < warmUp; round++) whole() + plain()
  const times = { calculation: [], bare: [] }
  for (let round = 0; round < rounds; round++) {
    const order = [
      ['calculation', whole],
      ['bare', plain]
    ]
    for (const [name, job] of round % 2 === 0 ? order : order.reverse()) {
      const begin = performance.now()
      job()
      times[name].push(((performance.now() - begin) * 1000) / count)
    }
  }
  return {
    count,
    microseconds: { calculation: median(times.calculation), bare: median(times.bare) },
    ratio: median(times.calculation.map((time, round) => time / times.bare[round]))
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const measured = measureEnergy()
  const { calculation, bare } = measured.microseconds
  process.stdout.write(
    `${count} calculations: ${calculation.toFixed(2)} µs each, bare formulas ${bare.toFixed(3)} µs, ratio ${measured.ratio.toFixed(0)}\n`
  )
  const out = join(dirname(fileURLToPath(import.meta.url)), 'out')
  mkdirSync(out, { recursive: true })
  const about = { node: process.versions.node, cores: cpus().length }
  writeFileSync(join(out, 'energy.json'), `${JSON.stringify({ ...about, ...measured }, null, 2)}\n`)
}
