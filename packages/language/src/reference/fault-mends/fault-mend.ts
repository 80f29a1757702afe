/** How a fault is mended. */
export interface FaultMend {
  readonly mend: string
  /** Where it can be shown: as it must not and as it may stand, among the steps or as an entry of the front matter. */
  readonly shown?: { readonly in: 'steps' | 'front matter'; readonly wrong: string; readonly mended: string }
}

export function told(mend: string): FaultMend {
  return { mend }
}

export function amongSteps(mend: string, wrong: string, mended: string): FaultMend {
  return { mend, shown: { in: 'steps', wrong, mended } }
}

export function inFrontMatter(mend: string, wrong: string, mended: string): FaultMend {
  return { mend, shown: { in: 'front matter', wrong, mended } }
}
