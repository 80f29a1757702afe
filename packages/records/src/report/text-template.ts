/** Shown as it is: values come in with every control character written out. */
export const textTemplate = `Audit of {{site}}, {{at}}
Root key {{root}}{{#if rootFrom}} ({{rootFrom}}){{/if}}
Roster   {{roster}}
{{#if none}}

No run is on record here.
{{/if}}
{{#each runs}}

Run {{run}}{{#if mark}}  {{mark}}{{/if}}
  {{title}}
  Equipment  {{equipment}}
  Procedure  {{procedure}}
  Machine    {{digest}}
  Issued by  {{issue}}
  Opened     {{opened}}
  Last entry {{last}}, {{state}}
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
      Why it matters: {{danger}}
      What to do: {{mend}}
{{/each}}
{{/each}}

  Entries
{{#each entries}}
  {{seq}}  {{at}}  {{by}}
      {{title}}: {{what}}
{{#if signed}}
      signed: {{signed}}{{#if bad}}  SIGNATURE DOES NOT HOLD{{/if}}
{{/if}}
{{/each}}
{{/each}}

What this audit cannot see
{{#each limits}}
  - {{this}}
{{/each}}

{{caution}}
`
