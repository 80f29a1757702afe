/** An exact fraction, so that 690 V ± 10 % ends at 759 V and not a hair above it. The denominator is positive. */
export interface Rational {
  readonly numerator: bigint
  readonly denominator: bigint
}

const decimalForm = /^([+-]?)(\d+)(?:\.(\d+))?(?:e([+-]?\d+))?$/

/** Reads decimals joined by `*` and `/`, left to right: `12.5`, `-1e-6`, `459.67*5/9`. Callers check first: it throws. */
export function rational(text: string): Rational {
  const [first = '', ...rest] = text.split(/(?=[*/])/)
  return rest.reduce((total, part) => {
    const factor = decimal(part.slice(1))
    return part.startsWith('*') ? multiply(total, factor) : divide(total, factor)
  }, decimal(first))
}

function decimal(text: string): Rational {
  const match = decimalForm.exec(text)
  if (match === null) throw new RangeError(`not a number: ${text}`)
  const [, sign, whole = '0', fraction = '', exponent = '0'] = match
  const digits = BigInt(whole + fraction)
  const power = Number(exponent) - fraction.length
  const numerator = sign === '-' ? -digits : digits
  return power >= 0
    ? { numerator: numerator * 10n ** BigInt(power), denominator: 1n }
    : { numerator, denominator: 10n ** BigInt(-power) }
}

/** The shortest decimal that a floating-point number stands for: 0.1 is one tenth. */
export function rationalOf(value: number): Rational {
  return decimal(String(value))
}

export function add(left: Rational, right: Rational): Rational {
  return {
    numerator: left.numerator * right.denominator + right.numerator * left.denominator,
    denominator: left.denominator * right.denominator
  }
}

export function subtract(left: Rational, right: Rational): Rational {
  return add(left, { numerator: -right.numerator, denominator: right.denominator })
}

export function multiply(left: Rational, right: Rational): Rational {
  return { numerator: left.numerator * right.numerator, denominator: left.denominator * right.denominator }
}

export function divide(left: Rational, right: Rational): Rational {
  if (right.numerator === 0n) throw new RangeError('division by zero')
  const sign = right.numerator < 0n ? -1n : 1n
  return {
    numerator: sign * left.numerator * right.denominator,
    denominator: sign * left.denominator * right.numerator
  }
}

// More digits than a double holds, so that the last rounding is the only one.
const keptDigits = 24

/** The nearest floating-point number. */
export function toNumber({ numerator, denominator }: Rational): number {
  const size = numerator < 0n ? -numerator : numerator
  const shift = keptDigits - size.toString().length + denominator.toString().length
  const digits = shift >= 0 ? (size * 10n ** BigInt(shift)) / denominator : size / (denominator * 10n ** BigInt(-shift))
  const value = Number(`${digits}e${-shift}`)
  return numerator < 0n ? -value : value
}
