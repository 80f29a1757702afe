/** What a standard lets a capacitor stand at, and after how long. */
export interface DischargeStandard {
  readonly standard: string
  readonly scope: string
  /** Highest residual voltage that it allows. */
  readonly volts: number
  readonly seconds: number
  /** Charge in coulombs up to which it asks for no discharge. */
  readonly exemptCharge?: number
  readonly provenance: 'read' | 'memory'
}

export const dischargeStandards: readonly DischargeStandard[] = [
  {
    standard: 'IEC 60204-1, 6.2.4',
    scope: 'electrical equipment of machines, after switching off',
    volts: 60,
    seconds: 5,
    exemptCharge: 60e-6,
    provenance: 'read'
  },
  {
    standard: 'IEC 60204-1, 6.2.4',
    scope: 'plug pins that can be touched',
    volts: 60,
    seconds: 1,
    provenance: 'read'
  },
  {
    standard: 'NFPA 79 (2024), 6.5.1',
    scope: 'industrial machinery',
    volts: 60,
    seconds: 5,
    exemptCharge: 60e-6,
    provenance: 'read'
  },
  { standard: 'NEC 460.6', scope: 'capacitors up to 1000 V', volts: 50, seconds: 60, provenance: 'read' },
  { standard: 'NEC 460.28', scope: 'capacitors above that', volts: 50, seconds: 300, provenance: 'memory' },
  { standard: 'IEEE 18', scope: 'shunt power capacitors up to 600 V', volts: 50, seconds: 60, provenance: 'read' },
  { standard: 'IEEE 18', scope: 'shunt power capacitors above 600 V', volts: 50, seconds: 300, provenance: 'read' },
  {
    standard: 'IEC 60831-1',
    scope: 'self-healing power capacitors up to 1000 V',
    volts: 75,
    seconds: 180,
    provenance: 'read'
  },
  { standard: 'IEC 60871-1', scope: 'power capacitors above 1000 V', volts: 75, seconds: 600, provenance: 'read' },
  {
    standard: 'IEC 61800-5-1 (2007), 4.3.9',
    scope: 'power drive systems, after removal of power',
    volts: 60,
    seconds: 5,
    exemptCharge: 50e-6,
    provenance: 'memory'
  },
  {
    standard: 'IEC 61010-1, 6.3.1 and 6.10.3',
    scope: 'plug pins of measuring equipment; above its voltage limit the charge is limited',
    volts: 60,
    seconds: 5,
    exemptCharge: 45e-6,
    provenance: 'memory'
  }
]

/** The standards that let a capacitor stand above this safe level: after their time it may still be live. */
export function standardsAbove(safeVolts: number): readonly DischargeStandard[] {
  return dischargeStandards.filter(({ volts }) => volts > safeVolts)
}

/** The trap of a discharge standard, as a full sentence; undefined where every standard brings it low enough. */
export function dischargeTrap(startVolts: number, safeVolts: number): string | undefined {
  const above = standardsAbove(safeVolts).filter(({ volts }) => volts < startVolts)
  if (above.length === 0) return undefined
  const highest = Math.max(...above.map(({ volts }) => volts))
  const names = [...new Set(above.filter(({ volts }) => volts === highest).map(({ standard }) => standard))]
  return `A capacitor built to ${names.join(' or ')} may stand at ${highest} V when its rated discharge time is over, which is still above ${safeVolts} V: that time is no proof.`
}

export interface VoltageLimit {
  readonly rule: string
  readonly ac?: number
  readonly dc?: number
  readonly says: string
  readonly provenance: 'read' | 'memory'
}

/** Voltages at which rules begin to treat a part as dangerous. Alternating ones are root mean square. */
export const voltageLimits: readonly VoltageLimit[] = [
  {
    rule: '29 CFR 1910.303(g)(2)(i)',
    ac: 50,
    dc: 50,
    says: 'live parts at 50 V or more are guarded',
    provenance: 'read'
  },
  {
    rule: '29 CFR 1910.333(a)(1)',
    ac: 50,
    dc: 50,
    says: 'below 50 V to ground need not be de-energized if burns and arcs are no greater danger',
    provenance: 'read'
  },
  {
    rule: 'IEV, safety extra-low voltage',
    ac: 50,
    dc: 120,
    says: 'at most, direct voltage free of ripple',
    provenance: 'read'
  },
  {
    rule: 'IEC 60204-1, 6.4.1',
    ac: 25,
    dc: 60,
    says: 'protective extra-low voltage in dry places',
    provenance: 'read'
  },
  { rule: 'IEC 61010-1, third edition', ac: 30, dc: 60, says: 'hazardous live above this', provenance: 'memory' }
]
