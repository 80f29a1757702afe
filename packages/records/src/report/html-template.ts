/** One page that fetches nothing: its only style is the one in it, and the policy forbids all else. */
export const htmlTemplate = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>Audit of {{site}}, {{at}}</title>
<style>
:root { color-scheme: light dark; --ink: #1c1b19; --dim: #5d5a53; --paper: #fbfaf7; --rule: #cfcabd; --panel: #f1eee6; }
@media (prefers-color-scheme: dark) {
  :root { --ink: #e9e6df; --dim: #a9a498; --paper: #191816; --rule: #47443d; --panel: #23211e; }
}
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 62rem; padding: 2rem 1.25rem 4rem; background: var(--paper); color: var(--ink);
  font: 1rem/1.5 Georgia, "Times New Roman", serif; overflow-wrap: anywhere; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 0 0 .25rem; }
h2 { font-size: 1.3rem; line-height: 1.25; margin: 3rem 0 .5rem; border-top: 3px double var(--rule); padding-top: 1rem; }
h3 { font-size: 1.05rem; margin: 1.75rem 0 .4rem; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .15rem 1rem; margin: .75rem 0; }
dt { color: var(--dim); } dd { margin: 0; }
code { font: .9em/1.4 ui-monospace, Consolas, monospace; }
.mark { border: 2px solid currentColor; padding: 0 .4em; font-weight: bold; letter-spacing: .08em; }
.answer { font-weight: bold; }
.answer::before { display: inline-block; width: 1.4em; }
.good::before { content: "\\2713"; } .findings::before { content: "\\2717"; } .cannot-tell::before { content: "?"; }
.findings { text-decoration: underline; text-decoration-thickness: 2px; }
ul { margin: .25rem 0; padding-left: 1.25rem; } li { color: var(--dim); }
.finding { border-left: 4px solid currentColor; background: var(--panel); margin: .6rem 0; padding: .5rem .9rem; break-inside: avoid; }
.doubt { border-left-style: dotted; }
.finding p { margin: .15rem 0; } .where { color: var(--dim); font-size: .9rem; }
table { border-collapse: collapse; width: 100%; font-size: .92rem; }
caption { text-align: left; font-weight: bold; padding: 1.5rem 0 .3rem; }
th, td { text-align: left; vertical-align: top; padding: .3rem .6rem .3rem 0; border-bottom: 1px solid var(--rule); }
thead { display: table-header-group; } th { white-space: nowrap; overflow-wrap: normal; }
.stop { border: 2px solid currentColor; padding: 0 .3em; } .line { display: block; }
.overview { display: block; overflow-x: auto; } .overview .answer { white-space: nowrap; } tr { break-inside: avoid; }
.number { text-align: right; font-variant-numeric: tabular-nums; } .time { white-space: nowrap; font-variant-numeric: tabular-nums; }
.signed { font-style: italic; } .bad { font-weight: bold; font-style: normal; }
footer { margin-top: 3rem; border-top: 3px double var(--rule); padding-top: 1rem; }
@media (max-width: 40rem) { .time { white-space: normal; } dl { grid-template-columns: 1fr; } dd { margin-bottom: .4rem; } }
@media print {
  :root { --ink: #000; --dim: #333; --paper: #fff; --rule: #999; --panel: #fff; }
  body { max-width: none; padding: 0; font-size: 10pt; } h2 { break-before: page; } h2:first-of-type { break-before: auto; }
  h3 { break-after: avoid; } @page { margin: 18mm; }
}
</style>
</head>
<body>
<header>
<h1>Audit of {{site}}</h1>
<dl>
<dt>Made</dt><dd>{{at}}</dd>
<dt>Root key</dt><dd><code>{{root}}</code>{{#if rootFrom}}, {{rootFrom}}{{/if}}</dd>
<dt>Roster</dt><dd>{{roster}}</dd>
</dl>
</header>
<main>
{{#if none}}
<p>No run is on record here.</p>
{{/if}}
{{#if overview}}
<table class="overview">
<caption>{{overviewOf}}</caption>
<thead><tr><th scope="col">Run</th><th scope="col">Procedure</th><th scope="col">State</th><th scope="col">Locks that still hang</th><th scope="col">Whole</th><th scope="col">Followed</th><th scope="col">Fit</th><th scope="col">Timely</th></tr></thead>
<tbody>
{{#each overview}}
<tr><td><code>{{run}}</code></td><td>{{procedure}}</td><td>{{state}}</td><td>{{#each locks}}<span class="line">{{this}}</span>{{/each}}</td>{{#each answers}}<td class="answer {{answer}}">{{says}}</td>{{/each}}</tr>
{{/each}}
</tbody>
</table>
{{/if}}
{{#each runs}}
<section>
<h2>{{title}}{{#if mark}} <span class="mark">{{mark}}</span>{{/if}}</h2>
<dl>
<dt>Run</dt><dd><code>{{run}}</code></dd>
<dt>Equipment</dt><dd>{{equipment}}</dd>
<dt>Procedure</dt><dd>{{procedure}}</dd>
<dt>Machine</dt><dd><code>{{digest}}</code></dd>
{{#if issuedFor}}
<dt>Issued by</dt><dd>{{issue}}</dd>
{{else}}
<dt>Issue</dt><dd>{{issue}}</dd>
{{/if}}
<dt>Opened</dt><dd>{{opened}}</dd>
<dt>Last entry</dt><dd>{{last}}, {{state}}</dd>
{{#each locks}}
<dt>Still hanging</dt><dd>{{this}}</dd>
{{/each}}
{{#each waivers}}
<dt>Waived</dt><dd><code>{{obligation}}</code>: {{why}} ({{by}})</dd>
{{/each}}
</dl>
{{#each verdicts}}
<h3>{{asks}} <span class="answer {{answer}}">{{says}}</span></h3>
<ul>
{{#each checked}}
<li>{{this}}</li>
{{/each}}
</ul>
{{#each findings}}
<div class="finding {{weight}}">
<p class="where"><code>{{id}}</code>, {{weight}}, {{where}}</p>
<p>{{what}}</p>
{{#if also}}
<p>{{also}}</p>
{{/if}}
<p>Why it matters: {{danger}}</p>
<p>What to do: {{mend}}</p>
</div>
{{/each}}
{{/each}}
<table>
<caption>Entries of run {{run}}</caption>
<thead><tr><th scope="col" class="number">No.</th><th scope="col">Time</th><th scope="col">Person</th><th scope="col">Step and what happened</th></tr></thead>
<tbody>
{{#each entries}}
<tr><td class="number">{{seq}}</td><td class="time">{{at}}</td><td>{{by}}</td><td>{{title}}: {{what}}{{#if mark}}<br><strong class="stop">{{mark}}</strong>{{/if}}{{#if signed}}<br><span class="signed">Signed: {{signed}}</span>{{#if bad}} <span class="bad">The signature does not hold.</span>{{/if}}{{/if}}</td></tr>
{{/each}}
</tbody>
</table>
</section>
{{/each}}
</main>
<footer>
<h3>What this audit cannot see</h3>
<ul>
{{#each limits}}
<li>{{this}}</li>
{{/each}}
</ul>
<p>{{caution}}</p>
</footer>
</body>
</html>
`
