/** The commands that a screen names, the most urgent first; what finds no room there is left to `help`. */
export const commandsNamed = [
  'stop',
  'help or ?',
  'pause',
  'note',
  'why',
  'sources',
  'whole',
  'record',
  'leave'
] as const
