export { energyAdvice } from './energy-advice.js'
export { remedyAdvice } from './remedy-advice.js'
export {
  bestOrder,
  expectedMinutes,
  type RemedyFacts,
  type RemedyOrder,
  type SharedCost,
  writtenOrder
} from './remedy-order.js'
