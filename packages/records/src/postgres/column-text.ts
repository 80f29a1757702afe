/** A database text cannot hold U+0000: there it is written U+F8FF 0, and U+F8FF itself U+F8FF F. See the migrations. */
const mark = '\uf8ff'

/** As `lockwright.read_json` writes it. */
export function toColumn(text: string): string {
  return text.replaceAll(mark, `${mark}F`).replaceAll('\u0000', `${mark}0`)
}

export function fromColumn(column: unknown): string {
  return String(column).replace(new RegExp(`${mark}([0F])`, 'g'), (_, letter) => (letter === '0' ? '\u0000' : mark))
}
