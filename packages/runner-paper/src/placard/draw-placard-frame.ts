import type { Pen } from '../draw/pen.js'
import type { Setting } from '../draw/setting.js'
import { grey, type } from '../draw/style.js'

/** A double border that is seen from afar, the revision at its foot, and DRAFT where the procedure was not issued. */
export function drawPlacardFrame(pen: Pen, { page, metrics, catalog }: Setting, footer: string, draft: boolean): void {
  const { width, height } = page
  pen.decor(() => {
    if (draft) {
      const size = Math.min(120, (120 * width) / metrics.width(catalog.draft, 'bold', 120))
      const wide = metrics.width(catalog.draft, 'bold', size)
      pen.turned(-52, width / 2, height / 2, () =>
        pen.label(catalog.draft, width / 2 - wide / 2, height / 2 - size * 0.65, size, 'bold', grey.draft)
      )
    }
    pen.rectangle(12, 12, width - 24, height - 24, { stroke: '#000000', weight: 4 })
    pen.rectangle(17, 17, width - 34, height - 34, { stroke: '#000000', weight: 0.75 })
    pen.label(footer, page.left, height - 28, type.small, 'bold')
    const state = draft ? `${catalog.draft}, ${catalog.notIssued}` : ''
    pen.label(state, width - page.right - metrics.width(state, 'bold', type.small), height - 28, type.small, 'bold')
  })
}
