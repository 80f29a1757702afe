/** A node of the structure tree. It becomes an element of the file when something is first drawn for it, so reading order is drawing order. */
export interface Tag {
  readonly type: string
  readonly parent: Tag | null
  readonly options: TagOptions
}

export interface TagOptions {
  readonly title?: string
  readonly alt?: string
  /** BCP 47, where it is not that of the document. */
  readonly lang?: string
  readonly scope?: 'Row' | 'Column' | 'Both'
  /** Left, top, right, bottom in points from the upper left corner; for figures. */
  readonly bbox?: readonly [number, number, number, number]
}

export function tag(type: string, parent: Tag | null, options: TagOptions = {}): Tag {
  return { type, parent, options }
}
