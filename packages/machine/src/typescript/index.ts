export type {
  AnyTime,
  Choice,
  Deviation,
  Done,
  Finished,
  Late,
  LockHung,
  LockRemoved,
  ReadingTaken,
  Signed,
  Waited
} from './answer.js'
export { type At, type Standing, type Stepped, type TypedMachine, typedMachine } from './typed-machine.js'
export { typescriptOf } from './typescript-of.js'
