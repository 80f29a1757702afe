import { openSite, registerSheet, type SheetToPrint, systemClock, voidSheet } from '@lockwright/records'
import { fromRecords } from './from-records.js'

/** A sheet that is about to be printed. */
export interface OpenedSheet {
  /** Serial number to print on it, as an option of the printing; nothing where no site was named. */
  readonly numbered: { readonly serial?: string }
  /**
   * Does a part of the printing. Where nothing comes of it (null, or it throws), the sheet is void: its number stays on
   * record, with the reason.
   */
  printed<Value>(print: () => Value | Promise<Value>): Promise<Value>
  /** What to tell whoever prints it. */
  readonly told: string
}

/** Gives the sheet a serial number in the site, where one was named. */
export function openRegister(folder: string | undefined, sheet: SheetToPrint): OpenedSheet {
  if (folder === undefined) {
    return {
      numbered: {},
      printed: async (print) => print(),
      told: 'It has no serial number, because no site was named: nobody will miss it if it does not come back.'
    }
  }
  const site = fromRecords(openSite(folder))
  const { serial } = fromRecords(registerSheet(site, sheet))
  const spoil = () => voidSheet(site, { serial, at: systemClock.now().at, reason: 'It could not be printed' })
  return {
    numbered: { serial },
    printed: async (print) => {
      try {
        const value = await print()
        if (value === null) spoil()
        return value
      } catch (error) {
        spoil()
        throw error
      }
    },
    told: `Sheet ${serial}; \`lockwright enter --sheet ${serial}\` takes it back into the record.`
  }
}
