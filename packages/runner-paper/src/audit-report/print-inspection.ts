import type { Inspection } from '@lockwright/records'
import { english } from '../catalogs/english.js'
import { drawReport } from './draw-report.js'
import { inspectionBlocks } from './inspection-blocks.js'
import type { ReportOptions } from './print-audit.js'

/** The certificate of a periodic inspection as a page to print. The same record gives the same bytes. */
export async function printInspection(inspection: Inspection, { paper }: ReportOptions): Promise<Uint8Array> {
  const { procedure, revision, equipment, on } = inspection
  const title = `Periodic inspection of ${procedure}, ${on}`
  return drawReport(
    inspectionBlocks(inspection),
    {
      letterhead: equipment.place,
      header: `${equipment.tag}  ${equipment.name}`,
      fixedHeader: title,
      footer: `${procedure}, revision ${revision}`,
      fixedFooter: 'Certificate of a periodic inspection'
    },
    { paper, title, subject: `${equipment.tag}, ${equipment.name}`, made: inspection.at },
    english
  )
}
