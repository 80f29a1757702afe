import type { PictureFault } from '@lockwright/runner-paper'

/** What is said of each picture that was not printed: where it is named, why, what that means on the sheet, and the cure. */
export function pictureNotes(file: string, bytes: Uint8Array, faults: readonly PictureFault[]): readonly string[] {
  const lines = new TextDecoder().decode(bytes).split('\n')
  return faults.map(({ source, what, mend }) => {
    const line = lines.findIndex((each) => each.includes(source))
    const column = line === -1 ? -1 : (lines[line] ?? '').indexOf(source)
    const place = line === -1 ? file : `${file}:${line + 1}:${column + 1}`
    return `${place} picture \`${source}\` is not printed: ${what}. Whoever works from the sheet sees its alternate text alone. To mend it, ${mend}.`
  })
}
