export * from './all.js'
