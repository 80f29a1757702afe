/**
 * Every obligation that comes from a need, and so hangs on the ledger; each is broken by some random machine at least.
 * relock-after-test is told apart from work-isolated only by the path.
 */
export const obligationsMet = [
  'all-returned',
  'clear-before-energy',
  'control-order',
  'device-state',
  'ground-after-proof',
  'hardware-known',
  'inspected-before-energy',
  'left-on',
  'live-permitted',
  'operate-closed',
  'rebuild-restrained',
  'relieve-isolated',
  'remove-clear',
  'restrain-locked',
  'restraints-off',
  'stop-safe',
  'told-before-start',
  'tryout-clear',
  'tryout-done',
  'void-proof',
  'work-isolated',
  'work-proven',
  'work-released'
]
