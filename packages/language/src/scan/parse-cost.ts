/**
 * Counts what makes the Markdown parser slow. The numbers are measured on micromark 4 and mdast-util-from-markdown 2:
 * every block costs some time of its own; a list, quote or underlined heading costs a pass over its part of the text;
 * an unmatched sign in a paragraph costs a pass over the rest of that paragraph.
 */
export class ParseCost {
  private ofPart = 0
  private paragraph: string[] = []
  private length = 0
  private countedBlocks = 0
  private countedPasses = 0

  /** Paragraphs, headings, list items, rows of tables, directives, fences. */
  get blocks(): number {
    return this.countedBlocks
  }

  /** How often the parser looks at one code unit beyond the first time. */
  get passes(): number {
    return this.countedPasses
  }

  addBlocks(count: number): void {
    this.countedBlocks += count
  }

  /** Lists, quotes and the like: each costs a pass over its part. */
  addConstructs(count: number): void {
    this.ofPart += count
  }

  addLine(line: string): void {
    this.paragraph.push(line)
    this.length += line.length
  }

  endParagraph(): void {
    const lines = this.paragraph
    const long = this.length >= shortParagraph
    this.paragraph = []
    this.length = 0
    if (!long) return
    const text = lines.join('\n')
    let passes = 0
    const backticks = new Set<number>()
    for (const [sign] of text.matchAll(/<[!?]|`+|[*_[\]]/g)) {
      if (sign.startsWith('`')) backticks.add(sign.length)
      else passes += sign.startsWith('<') ? 0.75 : 0.2
    }
    this.countedPasses += (passes + backticks.size) * text.length
  }

  endPart(length: number): void {
    this.endParagraph()
    this.countedPasses += this.ofPart * length
    this.ofPart = 0
  }
}

// A paragraph of this length cannot cost enough to count, and most are shorter.
const shortParagraph = 512
