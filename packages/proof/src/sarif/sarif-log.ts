/** The part of SARIF 2.1.0 (OASIS standard) that is written here. Lines and columns count from 1. */
export interface SarifLog {
  readonly $schema: string
  readonly version: '2.1.0'
  readonly runs: readonly [SarifRun]
}

export interface SarifRun {
  readonly tool: { readonly driver: SarifDriver }
  readonly columnKind: 'utf16CodeUnits'
  readonly invocations: readonly [SarifInvocation]
  readonly artifacts: readonly { readonly location: SarifArtifactLocation; readonly sourceLanguage: 'markdown' }[]
  readonly results: readonly SarifResult[]
}

export interface SarifDriver {
  readonly name: string
  readonly semanticVersion?: string
  readonly rules: readonly SarifRule[]
}

export interface SarifRule {
  readonly id: string
  readonly shortDescription: SarifMessage
  readonly fullDescription: SarifMessage
  readonly help: SarifMessage
  readonly defaultConfiguration: { readonly level: SarifLevel }
}

/** `executionSuccessful` says that the check ran, not that it found nothing. */
export interface SarifInvocation {
  readonly executionSuccessful: boolean
  readonly toolExecutionNotifications: readonly {
    readonly level: SarifLevel
    readonly message: SarifMessage
    readonly locations: readonly SarifLocation[]
  }[]
}

export interface SarifResult {
  readonly ruleId: string
  readonly ruleIndex: number
  readonly level: SarifLevel
  readonly message: SarifMessage
  readonly locations: readonly [SarifLocation]
  readonly relatedLocations?: readonly SarifLocation[]
  readonly codeFlows?: readonly [SarifCodeFlow]
}

export interface SarifCodeFlow {
  readonly message: SarifMessage
  readonly threadFlows: readonly [{ readonly locations: readonly SarifFlowStep[] }]
}

export interface SarifFlowStep {
  readonly location: SarifLocation
  readonly executionOrder: number
  /** The energy ledger once the step was done. */
  readonly state: { readonly ledger: SarifMessage }
}

export interface SarifLocation {
  readonly id?: number
  readonly message?: SarifMessage
  readonly physicalLocation: { readonly artifactLocation: SarifArtifactLocation; readonly region: SarifRegion }
}

export interface SarifArtifactLocation {
  readonly uri: string
  readonly index?: number
}

export interface SarifRegion {
  readonly startLine: number
  readonly startColumn?: number
  readonly endLine?: number
  readonly endColumn?: number
}

export interface SarifMessage {
  readonly text: string
}

export type SarifLevel = 'none' | 'note' | 'warning' | 'error'
