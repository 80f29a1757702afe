import { expect, it } from 'vitest'
import { xmlAttribute, xmlComment, xmlText } from './xml.js'

// Which characters XML 1.0 can hold: production 2 of its fifth edition.
it('writes what XML cannot hold as the replacement character', () => {
  expect(xmlText('a\u0000b\u0007c\ufffed\ud800e\u{1f600}f\tg')).toBe('a\ufffdb\ufffdc\ufffdd\ufffde\u{1f600}f\tg')
})

it('ends no tag, attribute or comment', () => {
  expect(xmlText('<a> & ]]>')).toBe('&lt;a&gt; &amp; ]]&gt;')
  expect(xmlAttribute('"x"\n\'y\'')).toBe("&quot;x&quot;&#10;'y'")
  expect(xmlComment('a -- b --- c -->\nd-')).toBe('a - - b - - - c - -> d- ')
})
