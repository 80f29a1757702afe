import type { State } from '@lockwright/machine'
import { boxes, done, list, made, reading, text } from './made.fixture.js'

/** Steps with one of everything that a sheet has to show, in reading order. */
export const states: readonly State[] = [
  made('gather', {
    kind: 'gather',
    title: 'Gather the tools, parts and protective equipment',
    section: 'prepare',
    intro: text('When the pre-charge module fails, the drive waits at P and never closes its main contactor.'),
    exits: done('which')
  }),
  made('which', {
    kind: 'identify',
    title: 'Identify the cabinet',
    section: 'prepare',
    axis: 'cabinet',
    body: text('Read the plate inside the left door. Leave the inner cover shut.'),
    exits: [
      { on: 'identified', value: 'series-s', to: 'window' },
      { on: 'identified', value: 'series-t', to: 'window' }
    ]
  }),
  made('window', {
    kind: 'ask',
    title: 'What does the status window show while the drive tries to start?',
    section: 'prepare',
    question: '',
    exits: [
      {
        on: 'answer',
        answer: 'a1',
        label: 'P, and the bar stays empty for 30 s',
        says: text('The pre-charge has failed.'),
        to: 'tell'
      },
      { on: 'answer', answer: 'a2', label: 'Anything else', says: [], to: 'other' }
    ]
  }),
  made('other', {
    kind: 'stop',
    title: 'Stop: not a pre-charge fault',
    section: 'prepare',
    reason: '',
    tell: 'The shift leader'
  }),
  made('tell', {
    kind: 'notify',
    title: 'Tell the control room',
    section: 'lock-out',
    body: text('Out of service for two hours.'),
    exits: done('lock')
  }),
  made('lock', {
    kind: 'lock',
    title: 'Lock Q1, V1 and V2',
    section: 'lock-out',
    points: ['Q1', 'V1', 'V2'],
    body: text('Turn the handle to O.'),
    inputs: ['Q1', 'V1', 'V2'].map((point) => ({ kind: 'lock', id: `lock-${point}`, point })),
    exits: done('relieve')
  }),
  made('relieve', {
    kind: 'relieve',
    title: 'Let the energy out of dc-link',
    section: 'lock-out',
    sources: ['dc-link'],
    with: [],
    notices: [
      {
        id: 'n1',
        word: 'danger',
        label: 'Stored charge',
        body: text('The DC link keeps a lethal charge for minutes after Q1 is open.')
      }
    ],
    inputs: [{ kind: 'wait', id: 'wait-dc-link', seconds: 900, because: 'label', source: 'dc-link' }],
    exits: done('tank')
  }),
  made('tank', {
    kind: 'relieve',
    title: 'Let the energy out of tank',
    section: 'lock-out',
    sources: ['tank'],
    with: ['gauge'],
    things: [{ kind: 'source', id: 'tank' }],
    exits: done('try')
  }),
  made('try', {
    kind: 'tryout',
    title: 'Try the start control',
    section: 'lock-out',
    body: list('Press Start.', 'Press Stop.'),
    inputs: boxes('Press Start.', 'Press Stop.'),
    exits: done('permit')
  }),
  made('permit', {
    kind: 'signoff',
    title: 'Sign: the inner cover may be opened',
    section: 'lock-out',
    role: 'qualified',
    meaning: 'The inner cover may be opened',
    permit: 'permit',
    exits: done('prove')
  }),
  made('prove', {
    kind: 'prove',
    title: 'Prove mains and dc-link dead',
    section: 'lock-out',
    role: 'qualified',
    wear: ['gloves'],
    sources: ['mains', 'dc-link'],
    with: ['tester'],
    known: 'the socket by the door',
    by: 'instrument',
    inputs: [
      { kind: 'box', id: 'tester-before', of: 'tester-before', text: 'the socket by the door', source: null },
      ...['L1 to L2', 'L1 to L3', 'L1 to earth', 'L2 to L3', 'L2 to earth', 'L3 to earth'].map((pair) =>
        reading('mains', `mains: ${pair}`, 'V', 50)
      ),
      ...['DC+ to DC-', 'DC+ to earth', 'DC- to earth'].map((pair) => reading('dc-link', `dc-link: ${pair}`, 'V', 50)),
      { kind: 'box', id: 'tester-after', of: 'tester-after', text: 'the socket by the door', source: null }
    ],
    exits: done('earth')
  }),
  made('earth', {
    kind: 'restrain',
    title: 'Put on earths',
    section: 'lock-out',
    restraints: ['earths'],
    exits: done('unplug')
  }),
  made('unplug', {
    kind: 'work',
    title: 'Work: unplug the ribbon cable',
    section: 'change',
    leaves: [],
    why: null,
    permits: [],
    with: [],
    body: list('Unplug the ribbon cable and hold it aside.'),
    inputs: boxes('x'),
    exits: done('by')
  }),
  made('by', {
    kind: 'branch',
    title: 'By the cabinet',
    section: 'change',
    axis: 'cabinet',
    exits: [
      { on: 'value', value: 'series-s', says: [], to: 'bolts' },
      { on: 'value', value: 'series-t', says: [], to: 'slide' }
    ]
  }),
  made('bolts', {
    kind: 'work',
    title: 'Work: undo the four bolts',
    section: 'change',
    leaves: [],
    why: null,
    permits: [],
    with: [],
    body: list('Undo the four bolts.', 'Lower the module.'),
    inputs: boxes('a', 'b'),
    exits: done('fit')
  }),
  made('slide', {
    kind: 'work',
    title: 'Work: slide the module out',
    section: 'change',
    leaves: [],
    why: null,
    permits: [],
    with: [],
    body: list('Pull the red handle.'),
    inputs: boxes('c'),
    exits: done('fit')
  }),
  made('fit', {
    kind: 'work',
    title: 'Work: fit the new module',
    section: 'change',
    leaves: [],
    why: null,
    permits: [],
    with: [],
    body: list('Put the new module in.'),
    inputs: boxes('d'),
    exits: done('seated')
  }),
  made('seated', {
    kind: 'ask',
    title: 'Does the module sit flush?',
    section: 'change',
    question: '',
    exits: [
      { on: 'answer', answer: 'a1', label: 'Yes', says: [], to: 'clock' },
      { on: 'answer', answer: 'a2', label: 'No', says: [], to: 'refit' }
    ]
  }),
  made('refit', { kind: 'back', title: 'Go back to fit', section: 'change', to: 'fit', exits: done('fit') }),
  made('clock', { kind: 'timer', title: 'Within 60 s', section: 'change', seconds: 60, exits: done('seal') }),
  made('seal', {
    kind: 'work',
    title: 'Work: press the seal home',
    section: 'change',
    leaves: [],
    why: null,
    permits: [],
    with: [],
    body: list('Press the seal home.'),
    inputs: boxes('e'),
    exits: [
      { on: 'done', to: 'off' },
      { on: 'late', within: 'clock', says: text('The sealant has set.'), to: 'scrap' }
    ]
  }),
  made('scrap', { kind: 'stop', title: 'Stop: fetch a new seal', section: 'change', reason: '', tell: null }),
  made('off', {
    kind: 'remove',
    title: 'Take off earths',
    section: 'hand-back',
    restraints: ['earths'],
    exits: done('inspect')
  }),
  made('inspect', {
    kind: 'inspect',
    title: 'Inspect: tools out, guards back',
    section: 'hand-back',
    body: list('Tools counted', 'Inner cover on'),
    inputs: boxes('f', 'g'),
    exits: done('clear')
  }),
  made('clear', {
    kind: 'clear',
    title: 'Clear everybody from the machine',
    section: 'hand-back',
    exits: done('unlock')
  }),
  made('unlock', {
    kind: 'unlock',
    title: 'Unlock V2, V1 and Q1',
    section: 'hand-back',
    points: ['V2', 'V1', 'Q1'],
    exits: done('on')
  }),
  made('on', {
    kind: 'energize',
    title: 'Switch on V2, V1 and Q1',
    section: 'hand-back',
    points: ['V2', 'V1', 'Q1'],
    exits: done('link')
  }),
  made('link', {
    kind: 'measure',
    title: 'Measure DC link voltage',
    section: 'hand-back',
    unit: 'V',
    from: 'the door panel',
    near: [],
    apart: [],
    with: [],
    why: null,
    permits: [],
    inputs: [
      {
        kind: 'reading',
        id: 'reading',
        label: 'DC link voltage',
        unit: 'V',
        limits: { min: 880, max: 980, below: null },
        source: null
      }
    ],
    exits: [
      { on: 'inside', to: 'finish' },
      { on: 'again', to: 'link' },
      { on: 'outside', says: [], to: 'specialist' }
    ]
  }),
  made('specialist', {
    kind: 'stop',
    title: 'Stop: call the drive specialist',
    section: 'hand-back',
    reason: '',
    tell: null
  }),
  made('finish', { kind: 'finish', title: 'Return to service', section: 'hand-back' })
]
