import type { LineShape, Marker } from './line-shape.js'

/** The list items that are open at a line, by the columns at which what they hold begins. */
export class OpenLists {
  private items: Marker[] = []

  get depth(): number {
    return this.items.length
  }

  /** Column that a line must reach to belong to the innermost item; undefined outside of all lists. */
  get content(): number | undefined {
    return this.items.at(-1)?.content
  }

  /**
   * Takes a line that is not blank; says how many new lists it begins. `lazy` is a line of prose behind a line that is
   * not blank: it goes on with the item, however far left it stands.
   */
  follow({ indent, markers }: LineShape, lazy: boolean): number {
    if (markers.length === 0 && (lazy || this.items.length === 0)) return 0
    const items = markers.filter(({ kind }) => kind === 'list')
    if (items.length === 0 && lazy) return 0
    const at = items[0]?.indent ?? indent
    let left: Marker | undefined
    for (let top = this.items.at(-1); top !== undefined && at < top.content; top = this.items.at(-1)) {
      left = this.items.pop()
    }
    let begun = 0
    for (const [index, item] of items.entries()) {
      if (index > 0 || left?.sign !== item.sign) begun += 1
      this.items.push(item)
    }
    return begun
  }
}
