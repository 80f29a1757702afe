import { describe, expect, it } from 'vitest'
import { paletteOf, withoutColours } from './palette.js'

describe('paletteOf', () => {
  const looks = (COLORFGBG: string | undefined) =>
    Object.entries(paletteOf(COLORFGBG === undefined ? {} : { COLORFGBG }))

  it.each([undefined, '0;15', '15;0', '12;8', 'default;default'])(
    'has no colour by itself that vanishes on a light or an unknown background (COLORFGBG=%s)',
    (hint) => {
      const dark = hint === '15;0' || hint === '12;8'
      for (const [tone, { color, backgroundColor }] of looks(hint)) {
        if (color === undefined || backgroundColor !== undefined) continue
        expect(dark ? ['red', 'green', 'yellow'] : ['red'], tone).toContain(color)
      }
    }
  )

  it('sets apart without colours what it sets apart with them', () => {
    for (const [tone, look] of looks(undefined)) {
      const plain = withoutColours[tone as keyof typeof withoutColours]
      if (look.bold === true) expect(plain.bold).toBe(true)
      if (look.backgroundColor !== undefined) expect(plain.inverse).toBe(true)
      expect(plain.color).toBeUndefined()
    }
  })
})
