export { compile } from './compile.js'
