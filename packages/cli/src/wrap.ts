/** Breaks running text at spaces into lines of at most `room` characters; lines after the first start with `indent`. */
export function wrap(text: string, room: number, indent: string): string {
  const lines: string[] = []
  let line = ''
  for (const word of text.split(/\s+/).filter((part) => part !== '')) {
    if (line !== '' && line.length + 1 + word.length > room) {
      lines.push(line)
      line = word
    } else {
      line = line === '' ? word : `${line} ${word}`
    }
  }
  lines.push(line)
  return lines.join(`\n${indent}`)
}
