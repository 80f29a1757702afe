export * from './all.js'
export * from './declared-later.js'
