import { readFileSync } from 'node:fs'
import { transformSync } from 'esbuild'
import { expect, test } from 'vitest'
import * as energy from './index.js'

const readme = readFileSync(new URL('../README.md', import.meta.url), 'utf8')

function block(language: string): string {
  const text = new RegExp(`\`\`\`${language}\\n([\\s\\S]*?)\`\`\``).exec(readme)?.[1]
  if (text === undefined) throw new Error(`the README has no ${language} block`)
  return text
}

test('the worked example of the README prints what stands below it', () => {
  const { code } = transformSync(block('ts'), { loader: 'ts', format: 'cjs', platform: 'node' })
  const printed: string[] = []
  const load = (name: string): typeof energy => {
    if (name !== '@lockwright/energy') throw new Error(`the README imports ${name}`)
    return energy
  }
  new Function('require', 'module', 'console', code)(
    load,
    { exports: {} },
    { log: (line: string) => printed.push(line) }
  )
  expect(`${printed.join('\n')}\n`).toBe(block('text'))
})

test('every function that the README names is public', () => {
  const named = [...readme.matchAll(/`([a-z]+[A-Z]\w*)`/g)].map(([, name = '']) => name)
  expect(named.length).toBeGreaterThan(20)
  for (const name of named) expect(Object.keys(energy)).toContain(name)
})
