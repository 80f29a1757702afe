/** What a file may be at most. Each has a diagnostic, and all are checked before anything that they could stall. */
export const LIMITS = {
  /** UTF-8 bytes of the file. */
  bytes: 256 * 1024,
  /** UTF-16 code units of a line. */
  lineLength: 10_000,
  /** Containers, lists and quotes inside one another. */
  depth: 16,
  steps: 2_000,
  aliases: 200,
  /** Paragraphs, headings, list items, rows of tables, directives and fences. */
  blocks: 10_000,
  /**
   * What the Markdown parser may be asked to do beyond linear work, in passes over one code unit: some of its
   * constructs cost a pass over all of their part of the text (measured: 64 KiB of small quotes, 13,000 of
   * them, take 23 s). 25 million take about half a second.
   */
  passes: 25_000_000,
  /** Diagnostics of one file that are listed. */
  faults: 1_000
} as const
