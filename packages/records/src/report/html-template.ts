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
.wide { overflow-x: auto; overflow-wrap: normal; } .reasons td { color: var(--dim); font-size: .88rem; padding-left: 1.5rem; }
tr:has(+ .reasons) > * { border-bottom: 0; padding-bottom: 0; } figure { margin: 1.25rem 0; break-inside: avoid; }
svg { display: block; width: 100%; max-width: 40rem; font-family: Helvetica, Arial, sans-serif; } figcaption { color: var(--dim); font-size: .9rem; } .overview .answer { white-space: nowrap; } tr { break-inside: avoid; }
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
{{#each asked}}
<p>{{this}}</p>
{{/each}}
</header>
<main>
{{#if none}}
<p>{{none}}</p>
{{/if}}
{{#if overview}}
<div class="wide">
<table class="overview">
<caption>{{overviewOf}}</caption>
<thead><tr><th scope="col">Run</th><th scope="col">Verdict</th><th scope="col">Procedure</th><th scope="col">State</th><th scope="col">Whole</th><th scope="col">Followed</th><th scope="col">Fit</th><th scope="col">Timely</th><th scope="col">Due</th></tr></thead>
<tbody>
{{#each overview}}
<tr><th scope="row"><code>{{run}}</code></th><td class="answer {{verdict}}">{{saysVerdict}}</td><td>{{procedure}}</td><td>{{state}}</td>{{#each answers}}<td class="answer {{answer}}">{{says}}</td>{{/each}}</tr>
{{#if told}}
<tr class="reasons"><td colspan="9">{{#each reasons}}<span class="line">{{this}}</span>{{/each}}{{#each locks}}<span class="line">still hanging: {{this}}</span>{{/each}}</td></tr>
{{/if}}
{{/each}}
</tbody>
</table>
</div>
{{/if}}
{{#each tables}}
<div class="wide">
<table>
<caption>{{title}}</caption>
<thead><tr>{{#each heads}}<th scope="col">{{this}}</th>{{/each}}</tr></thead>
<tbody>
{{#each rows}}
<tr>{{#each this}}<td>{{this}}</td>{{/each}}</tr>
{{/each}}
</tbody>
</table>
</div>
{{/each}}
{{#if charts}}
<section class="charts">
<h2>Charts</h2>
{{#each charts}}
<figure>
<svg viewBox="{{viewBox}}" role="img" aria-label="{{alternate}}" stroke="currentColor" fill="none">
{{#each marks}}
{{#if box}}
<rect x="{{box.x}}" y="{{box.y}}" width="{{box.width}}" height="{{box.height}}" fill="{{box.fill}}" stroke-width="0.75"></rect>
{{/if}}
{{#if line}}
<polyline points="{{line.points}}" stroke-width="{{line.weight}}" stroke-dasharray="{{line.dash}}"></polyline>
{{/if}}
{{#if ring}}
<circle cx="{{ring.x}}" cy="{{ring.y}}" r="{{ring.radius}}" stroke-width="1"></circle>
{{/if}}
{{#if text}}
<text x="{{text.x}}" y="{{text.y}}" font-size="{{text.size}}" text-anchor="{{text.anchor}}" font-weight="{{text.weight}}" fill="currentColor" stroke="none">{{text.says}}</text>
{{/if}}
{{/each}}
</svg>
<figcaption>{{title}}</figcaption>
</figure>
{{/each}}
</section>
{{/if}}
{{#if general}}
<section>
<h2>The records as a whole</h2>
{{#each general}}
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
<p>Why it matters: {{danger}}</p>
<p>What to do: {{mend}}</p>
</div>
{{/each}}
{{/each}}
</section>
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
{{#if entries}}
<table>
<caption>Entries of run {{run}}</caption>
<thead><tr><th scope="col" class="number">No.</th><th scope="col">Time</th><th scope="col">Person</th><th scope="col">Step and what happened</th></tr></thead>
<tbody>
{{#each entries}}
<tr><td class="number">{{seq}}</td><td class="time">{{at}}</td><td>{{by}}</td><td>{{title}}: {{what}}{{#if mark}}<br><strong class="stop">{{mark}}</strong>{{/if}}{{#if signed}}<br><span class="signed">Signed: {{signed}}</span>{{#if bad}} <span class="bad">The signature does not hold.</span>{{/if}}{{/if}}</td></tr>
{{/each}}
</tbody>
</table>
{{/if}}
</section>
{{/each}}
</main>
<footer>
{{#if notAnswered}}
<h3>What could not be answered</h3>
<ul>
{{#each notAnswered}}
<li>{{this}}</li>
{{/each}}
</ul>
{{/if}}
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
