export { type CompareOptions, compare } from './compare.js'
export { type Change, type Comparison, loosens, type Tendency, type Topic } from './comparison.js'
export { formatComparison } from './format-comparison.js'
