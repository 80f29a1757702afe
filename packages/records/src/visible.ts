/**
 * Characters that do not show, or that change how others show: controls, line separators, marks and overrides of
 * writing direction, zero-width and other format characters.
 */
const hiddenClass = '[\\p{Cc}\\p{Cf}\\p{Cs}\\p{Zl}\\p{Zp}]'
export const hidden = new RegExp(hiddenClass, 'u')
const everyHidden = new RegExp(hiddenClass, 'gu')

/** The text on one line with every such character written out, `<U+202E>`. */
export function visible(text: string): string {
  return text.replace(everyHidden, (character) => {
    const code = (character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')
    return `<U+${code}>`
  })
}
