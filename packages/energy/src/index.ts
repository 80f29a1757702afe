export type { Calculation, CalculationInput, CalculationStep, Interval, Outcome } from './calculations/calculation.js'
export { type SourceCalculations, sourceCalculations } from './calculations/source-calculations.js'
export { type Converted, convert, dimensionOf } from './convert.js'
export {
  type DecayFit,
  type DecayModel,
  type DecayQuestion,
  type DecayReading,
  type DecaySign,
  type Estimate,
  fitDecay,
  type ReadingAccuracy
} from './decay/fit-decay.js'
export { type DecayObservation, type JudgedDecay, judgeDecay } from './decay/judge-decay.js'
export { type EnergyKind, type EnergyParameters, safeBelow } from './energy-parameters.js'
export { formatBeside, formatMeasure } from './format-beside.js'
export { type FormatOptions, formatDuration, formatQuantity } from './format-quantity.js'
export type { FormulaInput } from './formula-input.js'
export {
  accumulatorGasVolume,
  accumulatorOilEnergy,
  accumulatorOilVolume,
  worstPrecharge
} from './formulas/accumulator.js'
export {
  chokedMassFlow,
  criticalRatio,
  type VentingProcess,
  type VentingVessel,
  ventingTime,
  ventingTimeConstant
} from './formulas/blow-down.js'
export {
  pccAtmosphere,
  pccDistance,
  pccEnergy,
  pccLowerEnergy,
  pccScaledDistance,
  pccTntHeat,
  pccUpperEnergy,
  scaledDistance,
  tntEquivalent,
  tntHeats
} from './formulas/burst-distance.js'
export { biotNumber, coolingTimeConstant } from './formulas/cooling.js'
export {
  batteryEnergy,
  capacitorCharge,
  capacitorEnergy,
  dischargeResistance,
  magnetEnergy
} from './formulas/electric-store.js'
export { levelAfter, timeToReach } from './formulas/exponential.js'
export {
  availabilityEnergy,
  brodeEnergy,
  isentropicEnergy,
  isothermalEnergy,
  standardAtmosphere
} from './formulas/gas-expansion.js'
export { type Gas, type GasName, gases } from './formulas/gases.js'
export { columnDrainTime, columnEnergy, compressedLiquidEnergy, type DrainingColumn } from './formulas/liquid-store.js'
export {
  coastRevolutions,
  coastTime,
  gravityEnergy,
  momentOfInertia,
  rotatingEnergy,
  springEnergy,
  standardGravity
} from './formulas/mechanical-store.js'
export { conductanceVentingTime, type VentingComponent } from './formulas/sonic-conductance.js'
export { type GloveClass, gloveClasses, gloveClassFits, worstCaseVolts } from './glove-classes.js'
export {
  type EnergyParameterName,
  isEnergyParameterName,
  type ParameterFacts,
  parameterFacts
} from './parameter-facts.js'
export { type DecimalOptions, type ParsedQuantity, parseQuantity } from './parse-quantity.js'
export { type ParsedReading, parseReading } from './parse-reading.js'
export type { Dimension, Quantity } from './quantity.js'
export { type LockoutDeviceRequirement, lockoutDevices, tagPullFits } from './ratings/lockout-device.js'
export {
  compareRatings,
  impulseImpedance,
  impulseVolts,
  type MeasurementCategory,
  type MeasurementStep,
  measurementSteps,
  type TesterRating,
  testerFits
} from './ratings/tester-rating.js'
export {
  type EnergyParameter,
  numberQuantity,
  type ReadParameter,
  type ReadSource,
  readEnergySource,
  readParameter,
  withParameter
} from './read-parameter.js'
export { type RelieveTime, relieveTime } from './relieve-time.js'
export { type RequiredWait, requiredWait, type WaitGrounds } from './required-wait.js'
export {
  type CurvePlot,
  type CurvePlotOptions,
  curvePlot,
  type PlotMark,
  type PlotPoint,
  type PlotUse
} from './sheet/curve-plot.js'
export { type CurvePoint, curvePoints, type DecayCurve } from './sheet/curve-points.js'
export { curveSvg } from './sheet/curve-svg.js'
export {
  type EnergySheet,
  type EnergySheetOptions,
  energySheet,
  type SheetEntry,
  type SheetParameter,
  type SheetSource
} from './sheet/energy-sheet.js'
export {
  type FormatEnergySheetOptions,
  formatEnergySheet,
  furtherOutcomes,
  judgedByRest,
  workLines
} from './sheet/format-energy-sheet.js'
export { inputFigure, magnitudeWords, tellInput, tellMagnitude, tellOutcome, tellWait } from './sheet/tell-outcome.js'
export { type ParsedWhatIf, parseWhatIf, type WhatIf } from './sheet/what-if.js'
export { type StoredEnergy, storedEnergy } from './stored-energy.js'
export {
  type EnergyThreshold,
  energyMagnitude,
  energyThresholds,
  fallingMass,
  feltAs,
  type JudgedMagnitude,
  type Magnitude
} from './thresholds/energy-magnitude.js'
export {
  type DischargeStandard,
  dischargeStandards,
  dischargeTrap,
  standardsAbove,
  type VoltageLimit,
  voltageLimits
} from './thresholds/residual-voltage.js'
export {
  type TouchMaterial,
  type TouchThreshold,
  touchThreshold,
  touchThresholds
} from './thresholds/touch-threshold.js'
