/** Twelve significant digits at most unless told otherwise, no trailing zeros, never in exponent form. */
export function plainNumber(value: number, digits = 12): string {
  const rounded = Number(value.toPrecision(digits))
  const [mantissa = '', exponent] = String(rounded).split('e')
  if (exponent === undefined) return mantissa
  const [whole = '', fraction = ''] = mantissa.replace('-', '').split('.')
  const sign = rounded < 0 ? '-' : ''
  const power = Number(exponent)
  return power < 0
    ? `${sign}0.${'0'.repeat(-power - whole.length)}${whole}${fraction}`
    : `${sign}${whole}${fraction.padEnd(power, '0')}`
}

const prefixes = [
  [1e9, 'G'],
  [1e6, 'M'],
  [1e3, 'k'],
  [1, ''],
  [1e-3, 'm'],
  [1e-6, 'µ'],
  [1e-9, 'n'],
  [1e-12, 'p']
] as const

/** With the SI prefix that keeps the number between 1 and 1000: `5.378 kJ`. For units that take prefixes. */
export function withPrefix(value: number, unit: string, digits = 4): string {
  const rounded = Math.abs(Number(value.toPrecision(digits)))
  const [size, prefix] = prefixes.find(([factor]) => rounded >= factor) ?? [1, '']
  return `${plainNumber(value / size, digits)} ${prefix}${unit}`
}
