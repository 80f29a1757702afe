import { expect, it } from 'vitest'
import { pictureNotes } from './picture-notes.js'

it('says of a picture that is not printed where it is named, why, what that means and how to mend it', () => {
  const text = 'A step.\n\nSee ![the door](pictures/door.png) first.\n'
  const fault = { source: 'pictures/door.png', what: 'it is interlaced', mend: 'save it without interlacing' }
  expect(pictureNotes('pump.md', Buffer.from(text), [fault])).toEqual([
    'pump.md:3:17 picture `pictures/door.png` is not printed: it is interlaced. Whoever works from the sheet sees its alternate text alone. To mend it, save it without interlacing.'
  ])
  expect(pictureNotes('pump.md', Buffer.from(text), [{ ...fault, source: 'elsewhere.png' }])[0]).toMatch(
    /^pump\.md picture/
  )
  expect(pictureNotes('pump.md', Buffer.from(text), [])).toEqual([])
})
