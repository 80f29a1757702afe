import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { version } from '../../packages/cli/src/version.js'
import { filesUnder, packageNames, packageSources, root } from './sources.js'

const code = [
  ...packageSources(),
  ...filesUnder('tests', /\.(ts|tsx|mjs)$/),
  ...filesUnder('examples', /\.(ts|tsx|mjs)$/),
  ...filesUnder('packages/cli', /^packages\/cli\/[^/]+\.mjs$/),
  ...filesUnder('.ci', /\.mjs$/)
].filter(({ path }) => !path.endsWith('.generated.ts'))

function offenders(fits: (file: { path: string; text: string }) => boolean): string[] {
  return code.filter(fits).map(({ path }) => path)
}

/** The text without comments and strings, roughly: enough to look for words of the language. */
function bareCode(text: string): string {
  return text
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"/g, "''")
    .replace(/\/\/.*$/gm, '')
}

describe('the code', () => {
  it('keeps modules under 300 lines', () => {
    expect(offenders(({ text }) => text.split('\n').length > 300)).toEqual([])
  })

  it('names files in full, in kebab case', () => {
    expect(
      offenders(
        ({ path }) =>
          !/^[a-z0-9]+(-[a-z0-9]+)*(\.(test|fixture|config))?\.(ts|tsx|mjs)$/.test(path.split('/').at(-1) ?? '')
      )
    ).toEqual([])
    expect(offenders(({ path }) => /\/(utils?|helpers?|misc|common|shared)(\/|\.)/.test(path))).toEqual([])
  })

  it('has no any, no default exports, no non-source habits', () => {
    const packages = ({ path }: { path: string }) => path.startsWith('packages/')
    expect(
      offenders((file) => packages(file) && /(:\s*|\bas\s+|<|\|\s*)any\b(?!\s*[-(])/.test(bareCode(file.text)))
    ).toEqual([])
    expect(offenders((file) => packages(file) && /\bexport default\b/.test(bareCode(file.text)))).toEqual([])
    expect(offenders((file) => packages(file) && /@ts-ignore|@ts-nocheck|eslint-disable/.test(file.text))).toEqual([])
  })

  it('leaves nothing marked as unfinished', () => {
    const marks = new RegExp(
      `\\b(${['TO' + 'DO', 'FIX' + 'ME', 'X' + 'XX', 'HA' + 'CK', 'not imple' + 'mented'].join('|')})\\b`
    )
    expect(offenders(({ text }) => marks.test(text))).toEqual([])
  })

  it('skips and singles out no test', () => {
    const skipping = new RegExp(
      `\\b(it|test|describe)\\.(${['sk' + 'ip', 'on' + 'ly', 'to' + 'do', 'fa' + 'ils'].join('|')})\\b`
    )
    expect(offenders(({ text }) => skipping.test(text))).toEqual([])
  })

  it.each(packageNames)('lists in the index of %s only what is public', (name) => {
    const index = readFileSync(join(root, 'packages', name, 'src/index.ts'), 'utf8')
    const lines = bareCode(index)
      .replace(/export\s+(type\s+)?(\*|\{[^}]*\})\s+from\s+''/g, '')
      .trim()
    expect(lines).toBe('')
  })

  it.each(packageNames)('gives %s the name, version, licence and engine of the house', (name) => {
    const manifest = JSON.parse(readFileSync(join(root, 'packages', name, 'package.json'), 'utf8')) as Record<
      string,
      unknown
    >
    expect(manifest['name']).toBe(`@lockwright/${name}`)
    expect(manifest['version']).toBe(version)
    expect(manifest['license']).toBe('Apache-2.0')
    expect(manifest['engines']).toEqual({ node: '>=20.19' })
  })

  it('pins every dependency exactly', () => {
    const manifests = filesUnder('.', /^(package|(packages\/[^/]+|tests|examples)\/package)\.json$/)
    expect(manifests.length).toBe(packageNames.length + 3)
    const loose = manifests.flatMap(({ path, text }) => {
      const { dependencies = {}, devDependencies = {} } = JSON.parse(text) as Record<string, Record<string, string>>
      return Object.entries({ ...dependencies, ...devDependencies })
        .filter(([, range]) => !/^(\d+\.\d+\.\d+(-[\w.]+)?|workspace:\*)$/.test(range))
        .map(([to, range]) => `${path}: ${to} ${range}`)
    })
    expect(loose).toEqual([])
  })
})
