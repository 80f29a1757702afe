/** Pounds-force, exact (NIST Special Publication 811, appendix B). */
const poundForce = 4.4482216152605

export interface LockoutDeviceRequirement {
  readonly device: 'lock' | 'tag'
  readonly requires: string
  /** Pull in newtons that its attachment has to withstand, where a figure is given. */
  readonly newtons?: number
  readonly source: string
}

/** What locks and tags have to withstand. */
export const lockoutDevices: readonly LockoutDeviceRequirement[] = [
  {
    device: 'lock',
    requires: 'comes off only by excessive force or unusual techniques, such as bolt cutters',
    source: '29 CFR 1910.147(c)(5)(ii)(C)(1)'
  },
  {
    device: 'tag',
    requires:
      'attachment that cannot be used again, is put on by hand, locks itself, does not let go below 50 lbf, and is at least as good as a one-piece nylon cable tie',
    newtons: 50 * poundForce,
    source: '29 CFR 1910.147(c)(5)(ii)(C)(2)'
  }
]

/** Whether the attachment of a tag holds the pull that the rule asks for. */
export function tagPullFits(newtons: number): boolean {
  return newtons >= 50 * poundForce
}
