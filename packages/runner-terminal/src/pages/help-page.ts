import type { Page } from '../step/screen.js'

/** What can be typed at every step. */
export const helpPage: Page = {
  title: 'What can be typed at every step',
  lines: [
    'The answer to the question, as it is shown beside it. An empty line answers nothing.',
    'A step is confirmed by its word or by the digit shown; the digit changes from step to step on purpose.',
    'Readings are typed with their unit: 0.69 kV, 50V, 4,2 bar.',
    '',
    'why: which obligations this step keeps, and their sources',
    'whole: all steps, and where the run stands',
    'whole WORDS: the steps in which these words stand',
    'record: what was recorded so far',
    'sources: every source, lock and person under the lockout; how a decay goes on',
    'note TEXT: put a note into the record',
    'as PERSON: somebody else is at the keys from now on; `as` alone asks who',
    'join PERSON: someone starts to work here; their lock on each point is asked for, or given as Q1=31',
    'left PERSON: someone stops working here',
    'handover PERSON: someone takes over; the incoming locks are asked for and are on first',
    'with ID: another instrument is used from now on, where the site keeps a list of them',
    'attach PATH: keep a photo or another file with the record',
    'deviate REASON: this step was done differently; not for what guards energies, and signed',
    'absent: where a lock comes off: its owner is away; who directs it and three conditions are asked for',
    'missing: a lock is not on; found POINT: one that was missing hangs again',
    'off NUMBER: a lock that another run left on this equipment is off, by its owner; absent NUMBER: its owner is away',
    'pause REASON: leave off for now; locks stay on',
    'stop REASON: stop the work; locks stay on, the equipment stays out of service',
    'skip: in a rehearsal without a site, set its clock to the end of the wait',
    'leave: leave the terminal; the run stays open exactly here',
    '',
    'Follow the rules of the plant, local codes and qualified people; this terminal replaces none of them.'
  ]
}
