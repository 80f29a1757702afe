import { parseQuantity } from '../parse-quantity.js'

export type TouchMaterial = 'bare metal' | 'coated metal' | 'ceramic, glass or stone' | 'plastic' | 'wood'

/** One burn threshold of ISO 13732-1:2006, the lower end where it is a range, °C. */
interface TouchRow {
  readonly seconds: number
  readonly celsius: Readonly<Record<TouchMaterial, number>>
  readonly provenance: string
}

const row = (
  seconds: number,
  [bare, coated, stone, plastic, wood]: readonly [number, number, number, number, number],
  provenance: string
): TouchRow => ({
  seconds,
  celsius: {
    'bare metal': bare,
    'coated metal': coated,
    'ceramic, glass or stone': stone,
    plastic,
    wood
  },
  provenance
})

/**
 * ISO 13732-1:2006, which gives burn thresholds of healthy adults and sets no limits. For short contact its threshold
 * of coated metal depends on the coating: that of bare metal stands here instead.
 */
export const touchThresholds: readonly TouchRow[] = [
  row(1, [65, 65, 80, 85, 110], 'bare metal read at second hand, the others from memory and weak'),
  row(10, [55, 55, 66, 71, 89], 'bare metal read at second hand, the others from memory and weak'),
  row(60, [51, 51, 56, 60, 60], 'from memory'),
  row(600, [48, 48, 48, 48, 48], 'from memory'),
  row(28_800, [43, 43, 43, 43, 43], 'read at second hand for prolonged contact, the rest from memory')
]

const spellings: readonly (readonly [RegExp, TouchMaterial])[] = [
  [/\b(coated|painted|lacquered|varnished|enamell?ed)\b/, 'coated metal'],
  [/\b(metal|steel|iron|alumini?um|copper|brass|bronze|zinc|stainless)\b/, 'bare metal'],
  [/\b(ceramic|porcelain|glass|stone|concrete|brick|tile)\b/, 'ceramic, glass or stone'],
  [/\b(plastic|rubber|polymer|nylon|resin)\b/, 'plastic'],
  [/\b(wood|wooden|timber|cork)\b/, 'wood']
]

export type TouchThreshold =
  | {
      readonly kind: 'found'
      readonly celsius: number
      readonly material: TouchMaterial
      /** The contact time of the table that was used: the next longer one. */
      readonly seconds: number
      readonly source: string
    }
  | { readonly kind: 'missing'; readonly missing: readonly ('surface' | 'contact')[] }
  | { readonly kind: 'not-understood'; readonly why: string }

/** The temperature from which a surface burns, by its material and the time it is touched, both in words. */
export function touchThreshold(surface: string | undefined, contact: string | undefined): TouchThreshold {
  const missing = [
    ...(surface === undefined ? (['surface'] as const) : []),
    ...(contact === undefined ? (['contact'] as const) : [])
  ]
  if (surface === undefined || contact === undefined) return { kind: 'missing', missing }
  const material = spellings.find(([spelling]) => spelling.test(surface.toLowerCase()))?.[1]
  if (material === undefined) {
    const known = spellings.map(([, name]) => name).join('; ')
    return { kind: 'not-understood', why: `\`${surface}\` is none of the materials that have a threshold: ${known}.` }
  }
  const seconds = contactSeconds(contact)
  if (seconds === undefined) {
    return {
      kind: 'not-understood',
      why: `\`${contact}\` is not a time of contact: write it as \`10 s\` or \`1 min\`.`
    }
  }
  // Contact that lasts longer than a whole shift is judged by the last row.
  const used = touchThresholds.find((candidate) => candidate.seconds >= seconds) ?? touchThresholds.at(-1)
  if (used === undefined) throw new Error('the table of touch thresholds is empty')
  return {
    kind: 'found',
    celsius: used.celsius[material],
    material,
    seconds: used.seconds,
    source: `ISO 13732-1:2006, ${used.provenance}`
  }
}

function contactSeconds(contact: string): number | undefined {
  const parsed = parseQuantity(contact)
  return parsed.ok && parsed.value.dimension === 'time' ? parsed.value.interval.high : undefined
}
