import type { Chart } from '@lockwright/records'
import type { Block } from '../blocks/block.js'

/** What a report is made of: the blocks of every sheet, and charts. */
export type ReportBlock = Block | { readonly kind: 'chart'; readonly chart: Chart }
