import type { Machine, State } from '@lockwright/machine'
import { describe, expect, it } from 'vitest'
import { catalogFor, type SheetLanguage } from '../catalog.js'
import { made } from '../made.fixture.js'
import { titleInLanguage } from './title-in-language.js'

const restraints = [
  { id: 'shaft-pin', is: 'shaft locking pin' },
  { id: 'earths', is: 'earthing set' }
] as unknown as Machine['restraints']

function told(state: State, language: SheetLanguage): string {
  return titleInLanguage(state, restraints, catalogFor(language, 'en').made)
}

describe('the title of a step', () => {
  const on = made('on', {
    kind: 'restrain',
    title: 'Put on shaft-pin and earths',
    restraints: ['shaft-pin', 'earths']
  } as never)
  const off = made('off', { kind: 'remove', title: 'Take off shaft-pin', restraints: ['shaft-pin'] } as never)

  it.each([
    ['en', 'Put on the shaft locking pin and earthing set', 'Take off the shaft locking pin'],
    ['es', 'Colocar: shaft locking pin y earthing set', 'Retirar: shaft locking pin'],
    ['de', 'Anbringen: shaft locking pin und earthing set', 'Abnehmen: shaft locking pin'],
    ['fr', 'Poser : shaft locking pin et earthing set', 'Déposer : shaft locking pin']
  ] as const)('names restraints as what they are, in %s', (language, putOn, takeOff) => {
    expect(told(on, language).replaceAll('\u00A0', ' ')).toBe(putOn)
    expect(told(off, language).replaceAll('\u00A0', ' ')).toBe(takeOff)
  })

  it('leaves what the author called it', () => {
    const named = made('on', { kind: 'restrain', title: 'Pin the shaft', restraints: ['shaft-pin'] } as never)
    expect(told(named, 'en')).toBe('Pin the shaft')
  })

  it.each([
    [
      'Work: Undo the four bolts of the bridge and lift it off; Lower the m…',
      'Work: Undo the four bolts of the bridge and lift it off …'
    ],
    [
      'Work: Compare the number with that of the fitted one;…',
      'Work: Compare the number with that of the fitted one …'
    ],
    ['Work: Put the very long cover back in its pla…', 'Work: Put the very long cover back in its …'],
    [
      'Work: a; then everything that comes behind it in the li…',
      'Work: a; then everything that comes behind it in the …'
    ]
  ])('that was cut ends with a whole word: %s', (title, whole) => {
    expect(told(made('w', { kind: 'work', title } as never), 'en').replaceAll('\u00A0', ' ')).toBe(whole)
  })
})
