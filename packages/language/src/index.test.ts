import { describe, expect, it } from 'vitest'
import * as language from './index.js'

describe('the public list', () => {
  it('is this', () => {
    expect(Object.keys(language).sort()).toEqual([
      'DIRECTIVES',
      'LIMITS',
      'branchesOf',
      'faultDangers',
      'nearest',
      'parseProcedure',
      'plainText',
      'slugOf'
    ])
  })
})
