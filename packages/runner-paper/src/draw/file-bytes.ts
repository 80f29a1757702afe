/** What is used of a document of the PDF library; its published types lack it. */
interface WritingDocument {
  _offset: number
  _write: (data: string | Uint8Array) => void
}

/**
 * The bytes of a file as the library writes them, put together at its end: a stream of many thousand small pieces would cost
 * more than what they say. The library reports an unfinished structure tree by never ending: the end must be seen.
 */
export function fileBytes(document: PDFKit.PDFDocument): Promise<Uint8Array> {
  const writing = document as unknown as WritingDocument
  const pieces: Uint8Array[] = []
  let lines: string[] = []
  const gather = (): void => {
    if (lines.length > 0) pieces.push(Buffer.from(lines.join(''), 'latin1'))
    lines = []
  }
  writing._write = (data) => {
    if (typeof data === 'string') {
      lines.push(data, '\n')
      writing._offset += data.length + 1
      return
    }
    gather()
    pieces.push(data)
    writing._offset += data.length
  }
  return new Promise((resolve, reject) => {
    // The first lines were written before anybody listened.
    const first: Uint8Array[] = []
    document.on('data', (chunk: Uint8Array) => first.push(chunk))
    document.on('error', reject)
    document.on('end', () => {
      gather()
      resolve(Buffer.concat([...first, ...pieces]))
    })
  })
}
