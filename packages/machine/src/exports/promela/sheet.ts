import { all, type Expression } from './expression.js'
import { flagOf, type LedgerObligation } from './obligations.js'
import { permitsAsked } from './spelling.js'
import type { World } from './world.js'

/** The statements of a step, written one by one: needs first, then effects. */
export class Sheet {
  readonly statements: string[] = []
  readonly asks = new Set<LedgerObligation>()

  constructor(readonly world: World) {}

  must(obligation: LedgerObligation, holds: Expression): void {
    this.asks.add(obligation)
    if (holds !== 'true') this.statements.push(`must_${flagOf(obligation)}(${holds});`)
  }

  set(variable: string, value: Expression | number): void {
    this.statements.push(`${variable} = ${value};`)
  }

  /** Left out where the thing is absent. */
  setIf(present: Expression, variable: string, value: string): void {
    this.set(variable, present === 'true' ? value : `(${present} -> ${value} : ${variable})`)
  }

  settle(): void {
    this.statements.push('settle();')
  }

  /** Hands were at the sources, and the machine is open and may have people in it. */
  openUp(sources: readonly string[], handling: Expression = 'true'): void {
    const { names, present } = this.world
    for (const id of sources) this.setIf(all([handling, present(id)]), names.source('touched', id), 'true')
    this.set('is_inspected', 'false')
    this.set('is_clear', 'false')
  }

  /** The start control has to be tried anew, where there is one. */
  untry(): void {
    if (this.world.machine.noStartControl === null) this.set('is_tried', 'false')
  }

  endPermits(): void {
    for (const permit of permitsAsked(this.world.machine)) this.set(this.world.names.permit(permit), 'false')
  }

  /** What nothing feeds may hold energy again. */
  rewindUnfed(): void {
    const { machine, names } = this.world
    for (const { id, store } of machine.sources.filter(({ unfed }) => unfed !== null)) {
      if (store === 'can-be-let-out') this.set(names.source('held', id), 'true')
      this.set(names.source('proven', id), 'false')
    }
  }
}
