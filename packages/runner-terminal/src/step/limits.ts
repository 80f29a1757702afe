import type { Input } from '@lockwright/machine'

/** The limits of a reading in words, such as `880 to 980 V`, `below 50 V`, `0 rpm`; empty where there are none. */
export function tellLimits({ limits, unit }: Extract<Input, { readonly kind: 'reading' }>): string {
  const { min, max, below } = limits
  const parts: string[] = []
  if (min !== null && max !== null) parts.push(`${min} to ${max} ${unit}`)
  else if (min !== null) parts.push(`at least ${min} ${unit}`)
  else if (max !== null) parts.push(`at most ${max} ${unit}`)
  if (below !== null) parts.push(below === 0 ? `0 ${unit}` : `below ${below} ${unit}`)
  return parts.join(', ')
}
