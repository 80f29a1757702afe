import { randomBytes } from 'node:crypto'
import { bad, good, type RecordsResult } from '../result.js'
import { checkCharacter, hasCheckCharacter } from './check-character.js'

/** Serial number of a printed sheet, `7M2-PSZ3`: six characters by chance, and a check character. */
export type Serial = string & { readonly __serial: unique symbol }

/** No I, L, O and U: what is read aloud or from a dirty sheet cannot be taken for another. */
const signs = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'

/** A new one. `random` gives bytes. */
export function newSerial(random: (amount: number) => Uint8Array = randomBytes): Serial {
  for (;;) {
    const text = [...random(6)].map((byte) => signs.charAt(byte % signs.length)).join('')
    const check = checkCharacter(text)
    if (signs.includes(check)) return hyphenated(`${text}${check}`)
  }
}

/** What somebody typed or a code said, with or without its hyphen, in capitals or not; O is read as 0, I and L as 1. */
export function parseSerial(typed: string): RecordsResult<Serial> {
  const text = typed.toUpperCase().replaceAll(/[\s-]/g, '').replaceAll('O', '0').replaceAll(/[IL]/g, '1')
  if (text.length !== 7 || [...text].some((sign) => !signs.includes(sign))) {
    return bad({
      id: 'not-a-serial',
      file: '',
      what: `\`${typed}\` cannot be the serial number of a sheet.`,
      danger: 'The record would name a sheet that nobody can find.',
      mend: 'Give it as it stands on each page of the sheet: seven letters and digits, such as 7M2-PSZ3.'
    })
  }
  if (hasCheckCharacter(text)) return good(hyphenated(text))
  return bad({
    id: 'serial-mistyped',
    file: '',
    what: `The serial number \`${hyphenated(text)}\` is mistyped: its last character does not fit the others.`,
    danger: 'The answers would be entered for another sheet, and the one they stand on would count as lost.',
    mend: 'Read the serial number on the sheet again.'
  })
}

function hyphenated(text: string): Serial {
  return `${text.slice(0, 3)}-${text.slice(3)}` as Serial
}
