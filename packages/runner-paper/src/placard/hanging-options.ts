import type { PrintOptions } from '../print-options.js'

/** Placards are also hung as A3. */
export type PlacardPaper = PrintOptions['paper'] | 'a3'

/** What a placard, tags and labels need besides the machine. The clock is never read. */
export type HangingOptions = Pick<PrintOptions, 'for' | 'issue' | 'digest' | 'now' | 'language'>

/** The file, with remarks on what was left out of it; or why there is none, each fault one sentence. */
export type Hung =
  | { readonly ok: true; readonly pdf: Uint8Array; readonly remarks: readonly string[] }
  | { readonly ok: false; readonly faults: readonly string[] }
