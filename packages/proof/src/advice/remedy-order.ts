/** What the order of remedies depends on. */
export interface RemedyFacts {
  /** That this remedy is the one that cures, 0 to 1; one fault, so the chances add up to 1 at most. */
  readonly chance: number
  /** Of the remedy alone, without re-test and re-lock. */
  readonly minutes: number
  /** Needs work with power on: never tried before what was written before it. */
  readonly live: boolean
}

/** What comes with every remedy alike. */
export interface SharedCost {
  /** Re-test, after each remedy. */
  readonly retest: number
  /** Lockout again, after each remedy that did not cure. */
  readonly relock: number
}

export interface RemedyOrder {
  /** Indices of the remedies, first to be tried first. */
  readonly order: readonly number[]
  readonly minutes: number
}

/**
 * Expected minutes of trying remedies in an order: S(1) (c(1) + T) + S(2) (L + c(2) + T) + ... + S(n + 1) L, where S(i) is
 * the chance that the remedies before number i did not cure, c its own minutes, T those of the re-test and L those of the
 * re-lock, which follows every remedy that did not cure, the last one too. The lockout before the first remedy is paid in
 * every order and not counted.
 */
export function expectedMinutes(facts: readonly RemedyFacts[], shared: SharedCost, order: readonly number[]): number {
  return Number(costOf(facts, shared, order)) / (chanceParts * minuteParts)
}

/**
 * The order with the least expected time. The sum above is Σ S(i) (c(i) + T + L) less L, plus S(n + 1) L, and neither of
 * the last two depends on the order; so the classical rule holds with c + T + L for the cost: descending chance over cost
 * (standards: section 9, order of trying repairs). A remedy with power on has to come after all that was written before
 * it: it is glued behind the blocks of smaller ratio before it, and blocks go by the ratio of their sums, which is optimal
 * for such a series-parallel order. Of equals, the one that was written first goes first.
 */
export function bestOrder(facts: readonly RemedyFacts[], shared: SharedCost): RemedyOrder {
  let blocks: Block[] = []
  facts.forEach((fact, index) => {
    let block: Block = {
      members: [index],
      chance: inParts(fact.chance, chanceParts),
      cost: inParts(fact.minutes + shared.retest + shared.relock, minuteParts)
    }
    if (fact.live) {
      for (let last = blocks.at(-1); last !== undefined && isAhead(block, last); last = blocks.at(-1)) {
        block = joined(last, block)
        blocks = blocks.slice(0, -1)
      }
      blocks.push(block)
      return
    }
    const behind = blocks.findIndex((other) => isAhead(block, other))
    blocks.splice(behind === -1 ? blocks.length : behind, 0, block)
  })
  const order = blocks.flatMap(({ members }) => members)
  return { order, minutes: expectedMinutes(facts, shared, order) }
}

export function writtenOrder(facts: readonly RemedyFacts[], shared: SharedCost): RemedyOrder {
  const order = facts.map((_, index) => index)
  return { order, minutes: expectedMinutes(facts, shared, order) }
}

/** Whole parts, so that equal ratios are found equal: a chance to the millionth, minutes to the thousandth. */
const chanceParts = 1_000_000
const minuteParts = 1_000

function inParts(value: number, parts: number): bigint {
  return BigInt(Math.round(value * parts))
}

interface Block {
  readonly members: readonly number[]
  readonly chance: bigint
  readonly cost: bigint
}

/** Strictly greater chance for the cost. */
function isAhead(one: Block, other: Block): boolean {
  return one.chance * other.cost > other.chance * one.cost
}

function joined(one: Block, other: Block): Block {
  return {
    members: [...one.members, ...other.members],
    chance: one.chance + other.chance,
    cost: one.cost + other.cost
  }
}

function costOf(facts: readonly RemedyFacts[], { retest, relock }: SharedCost, order: readonly number[]): bigint {
  let left = BigInt(chanceParts)
  let sum = 0n
  for (const index of order) {
    const fact = facts[index]
    if (fact === undefined) throw new Error('the order names a remedy that is not there')
    sum += left * inParts(fact.minutes + retest, minuteParts)
    left -= inParts(fact.chance, chanceParts)
    sum += left * inParts(relock, minuteParts)
  }
  return sum
}
