/** Shown as it is: values come in with every control character written out. */
export const textTemplate = `Audit of {{site}}, {{at}}
Root key {{root}}{{#if rootFrom}} ({{rootFrom}}){{/if}}
Roster   {{roster}}
{{#each asked}}
{{this}}
{{/each}}
{{#if none}}

{{none}}
{{/if}}
{{#if overviewLines}}

{{overviewOf}}
{{#each overviewLines}}
  {{this}}
{{/each}}
{{/if}}
{{#each tables}}

{{title}}
{{#each lines}}
  {{this}}
{{/each}}
{{/each}}
{{#if general}}

The records as a whole
{{#each general}}
  {{question}}: {{says}}
{{#each checked}}
    - {{this}}
{{/each}}
{{#each findings}}
    {{weight}} {{id}}  {{where}}
      {{what}}
      Why it matters: {{danger}}
      What to do: {{mend}}
{{/each}}
{{/each}}
{{/if}}
{{#each runs}}

Run {{run}}{{#if mark}}  {{mark}}{{/if}}
  {{title}}
  Equipment  {{equipment}}
  Procedure  {{procedure}}
  Machine    {{digest}}
{{#if issuedFor}}
  Issued by  {{issue}}
{{else}}
  Issue      {{issue}}
{{/if}}
  Opened     {{opened}}
  Last entry {{last}}, {{state}}
{{#each locks}}
  Hanging    {{this}}
{{/each}}
{{#each waivers}}
  Waived     {{obligation}}: {{why}} ({{by}})
{{/each}}

{{#each verdicts}}
  {{question}}: {{says}}
{{#each checked}}
    - {{this}}
{{/each}}
{{#each findings}}
    {{weight}} {{id}}  {{where}}
      {{what}}
{{#if also}}
      {{also}}
{{/if}}
      Why it matters: {{danger}}
      What to do: {{mend}}
{{/each}}
{{/each}}
{{#if entries}}

  Entries
{{/if}}
{{#each entries}}
  {{seq}}  {{at}}  {{by}}
      {{title}}: {{what}}
{{#if mark}}
      ** {{mark}}
{{/if}}
{{#if signed}}
      signed: {{signed}}{{#if bad}}  SIGNATURE DOES NOT HOLD{{/if}}
{{/if}}
{{/each}}
{{/each}}
{{#if notAnswered}}

What could not be answered
{{#each notAnswered}}
  - {{this}}
{{/each}}
{{/if}}

What this audit cannot see
{{#each limits}}
  - {{this}}
{{/each}}

{{caution}}
`
