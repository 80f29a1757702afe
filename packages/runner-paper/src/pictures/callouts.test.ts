import { expect, it } from 'vitest'
import { calloutsOf } from './callouts.js'

it('finds numbers on a picture in its alternate text, and leaves the rest as its caption', () => {
  expect(calloutsOf('Left door; 1 at 30 40: handle of Q1; 2 at 62, 18: hasp')).toEqual({
    caption: 'Left door',
    callouts: [
      { number: '1', x: 0.3, y: 0.4, text: 'handle of Q1' },
      { number: '2', x: 0.62, y: 0.18, text: 'hasp' }
    ]
  })
})

it('takes nothing for a callout that is none, and loses no word', () => {
  for (const text of ['Door; open', '1 at 130 40: outside the picture', 'Valve at 30 40', ''])
    expect(calloutsOf(text)).toEqual({ caption: text, callouts: [] })
})
