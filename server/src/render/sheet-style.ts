/**
 * The style of the sheet. On paper a head with version and status stands on every page (the head of a table is repeated),
 * and the page's number below; nothing depends on colour or on a background being printed.
 */
export const sheetStyle = `
:root {
  color-scheme: light dark;
  --paper: #ffffff; --ink: #192226; --soft: #465257; --rule: #aab5b8; --faint: #d6dddf;
  --accent: #0c4f5c; --wash: #f2f6f5; --alarm: #8a1a12; --on-alarm: #ffffff;
}
* { box-sizing: border-box; }
body.sheet {
  margin: 0; padding: 0; background: var(--paper); color: var(--ink);
  font: 400 1rem/1.45 "Source Sans 3", "Segoe UI", "Noto Sans", "Liberation Sans", "Helvetica Neue", Arial, sans-serif;
  font-variant-numeric: tabular-nums; overflow-wrap: break-word;
}
.sheet h1, .sheet h2, .sheet h3, .sheet h4, .sheet p, .sheet ul, .sheet ol, .sheet dl, .sheet dd { margin: 0; padding: 0; }
.sheet ul, .sheet ol { list-style: none; }
.sheet a { color: inherit; }
.sheet .frame { width: 100%; table-layout: fixed; border-collapse: collapse; }
.sheet .frame > thead { display: none; }
.sheet .frame > * > tr > td { padding: 0; }
.sheet .page { max-width: 62rem; margin: 0 auto; padding: 1.5rem clamp(1rem, 4vw, 3rem) 4rem; }

.sheet .mark {
  display: inline-block; padding: .05em .6em; border: .15em solid currentColor; font-weight: 700; white-space: nowrap;
  letter-spacing: .04em; margin-right: .4em;
}
.sheet .mark:last-child { margin-right: 0; }
.sheet .mark.unfit { background: var(--alarm); border-color: var(--alarm); color: var(--on-alarm); }
.sheet .banner {
  position: sticky; top: 0; z-index: 1; padding: .45rem clamp(1rem, 4vw, 3rem); background: var(--alarm);
  color: var(--on-alarm); font-weight: 700;
}

.sheet .title { border-top: .4rem solid var(--accent); padding-top: .9rem; }
.sheet .kicker { color: var(--accent); font-weight: 600; }
.sheet h1, .sheet h2 {
  font-family: "Source Serif 4", "Iowan Old Style", "Palatino Linotype", Palatino, "Noto Serif", "Liberation Serif", Georgia, serif;
  font-weight: 600; line-height: 1.15;
}
.sheet h1 { font-size: clamp(1.6rem, 4vw, 2.3rem); margin: .1rem 0 .4rem; }
.sheet .summary { max-width: 46rem; color: var(--soft); font-size: 1.05rem; }
.sheet .facts { display: flex; flex-wrap: wrap; gap: .3rem 2rem; margin: .9rem 0 0; }
.sheet .facts > div { display: flex; gap: .5em; align-items: baseline; }
.sheet dt { color: var(--soft); }
.sheet .facts dd { font-weight: 600; }
.sheet .advice { margin: 1rem 0 0; padding: .6rem .8rem; border: .1rem solid var(--rule); color: var(--ink); }

.sheet .head { columns: 2 19rem; column-gap: 2.5rem; margin-top: 1.4rem; }
.sheet .head > section { break-inside: avoid; padding-bottom: 1.1rem; }
.sheet h3 { font-size: 1rem; font-weight: 700; color: var(--accent); border-bottom: .1rem solid var(--rule); padding-bottom: .15rem; margin-bottom: .35rem; }
.sheet .lead { color: var(--soft); }
.sheet .list > li { padding: .14rem 0; }
.sheet .list > li > label { display: grid; grid-template-columns: auto 1fr auto; gap: 0 .55em; align-items: baseline; }
.sheet label > .tick { align-self: start; margin-top: .27em; }
.sheet .list.plain > li { padding-left: 1em; text-indent: -1em; }
.sheet .why { color: var(--soft); }
.sheet .list .first { display: block; font-size: .92em; }
.sheet .list .only { display: block; border-left: .2em solid var(--ink); padding-left: .5em; }
.sheet .drawing { overflow-x: auto; }
.sheet .drawing > svg { display: block; width: 100%; min-width: 58rem; height: auto; }
.sheet .amount { text-align: right; white-space: nowrap; }
.sheet .ref { font-size: .75em; vertical-align: .35em; line-height: 0; margin-left: .15em; text-decoration: none; color: var(--accent); font-weight: 600; }
.sheet .ref:hover { text-decoration: underline; }

.sheet .tick {
  appearance: none; flex: none; width: .95em; height: .95em; margin: 0; border: .1em solid var(--ink); border-radius: .12em;
  background: transparent; font-size: 1em; display: inline-block; position: relative;
}
.sheet .tick:checked::after {
  content: ""; position: absolute; left: .26em; top: .02em; width: .22em; height: .52em; border: solid var(--ink);
  border-width: 0 .16em .16em 0; transform: rotate(42deg);
}
.sheet .tick:focus-visible, .sheet a:focus-visible { outline: .16rem solid var(--accent); outline-offset: .12rem; }

.sheet .visit { margin-top: 2.6rem; }
.sheet .visit > header { display: flex; flex-wrap: wrap; gap: 0 1rem; align-items: baseline; border-bottom: .2rem solid var(--ink); padding-bottom: .3rem; }
.sheet .visit h2 { font-size: 1.5rem; flex: 1 1 16rem; }
.sheet .visit h2 .nth { color: var(--accent); font-weight: 400; }
.sheet .visit .time { color: var(--soft); }
.sheet .interval { display: flex; align-items: center; gap: 1rem; margin-top: 2.2rem; color: var(--ink); }
.sheet .interval::before, .sheet .interval::after { content: ""; flex: 1; border-top: .1rem dashed var(--rule); }
.sheet .interval b { font-size: 1.1rem; }

.sheet .steps > li { border-bottom: .06rem solid var(--faint); padding: .4rem 0; }
.sheet .steps > li:last-child { border-bottom: 0; }
.sheet .row {
  display: grid; gap: 0 .8em; align-items: baseline;
  grid-template-columns: 1em 1.5em minmax(0, 1fr) minmax(0, 11em) minmax(0, 6.5em) minmax(0, 5.6em);
}
.sheet .row.wide { grid-template-columns: 1em 1.5em minmax(0, 1fr) minmax(0, 5.6em); }
.sheet .row.bare { grid-template-columns: 1em minmax(0, 1fr) minmax(0, 9em) minmax(0, 6.5em) minmax(0, 5.6em); }
.sheet .row.bare.wide { grid-template-columns: 1em minmax(0, 1fr) minmax(0, 5.6em); }
.sheet .nr { color: var(--soft); text-align: right; }
.sheet .do { font-weight: 600; }
.sheet .tools, .sheet .who, .sheet .takes { color: var(--soft); font-size: .92em; }
.sheet .takes { text-align: right; }
.sheet .cols { color: var(--soft); font-size: .85em; padding: .3rem 0 0; }
.sheet .more { margin-left: 4.1em; }
.sheet .more > p { padding-top: .1rem; }
.sheet .limit { border-left: .2em solid var(--faint); padding-left: .6em; margin-top: .2rem; color: var(--soft); font-size: .94em; }
.sheet .limit.clock { border-left-color: var(--ink); }
.sheet .limit b { color: var(--ink); font-weight: 600; }
.sheet .start { display: flex; flex-wrap: wrap; gap: 0 1em; border: .1em solid var(--ink); padding: .15em .6em; margin-top: .3rem; font-size: .94em; }
.sheet .start .at { margin-left: auto; white-space: nowrap; }
.sheet .blank { display: inline-block; width: 2.2em; border-bottom: .1em solid var(--ink); height: 1.1em; }

.sheet .steps .steps { margin-left: 1.2em; }
.sheet .nested { margin: .3rem 0 0 4.1em; }
.sheet .row.bare ~ .more, .sheet .row.bare ~ .nested { margin-left: 1.8em; }
.sheet .steps p.more { margin-left: 1.8em; }
.sheet .steps > li > p.more:first-child { margin-left: 0; }
.sheet .option { border-left: .16em solid var(--rule); padding: .15rem 0 .15rem .8em; margin-top: .3rem; }
.sheet .option > .name { display: flex; gap: .6em; align-items: baseline; font-weight: 600; }
.sheet .option > .name > .tick { border-radius: 50%; }
.sheet .option .go { color: var(--soft); font-weight: 400; }
.sheet .question { font-weight: 600; }
.sheet .tag { color: var(--accent); font-weight: 600; }
.sheet .stop { font-weight: 700; border: .15em solid var(--ink); padding: .25em .7em; display: inline-block; }

.sheet .pause { border: .16em solid var(--ink); padding: .55rem .9rem .7rem; margin: .7rem 0; background: var(--wash); }
.sheet .pause > header { display: flex; flex-wrap: wrap; gap: 0 1em; align-items: baseline; }
.sheet .pause h4 { font-size: 1.12rem; font-weight: 700; }
.sheet .pause .hint { flex: 1 1 16em; color: var(--soft); }
.sheet .pause .items { columns: 2 19rem; column-gap: 2rem; margin-top: .35rem; }
.sheet .items > li { padding: .16rem 0; break-inside: avoid; }
.sheet .items > li > label, .sheet .tell li > label { display: flex; gap: .55em; align-items: baseline; }
.sheet .due { border-top: .1em solid var(--ink); margin-top: .5rem; padding-top: .35rem; }
.sheet .due .name { font-weight: 700; }
.sheet .due .items { display: flex; flex-wrap: wrap; gap: .1rem 2rem; columns: auto; margin-top: .1rem; }
.sheet .visit > .due { border: .16em solid var(--ink); padding: .45rem .9rem; }
.sheet .visit > .due.later { border-style: dashed; border-width: .1em; }

.sheet .tell { padding: .35rem 0 .35rem .9em; border-left: .3em double var(--accent); margin: .5rem 0; }
.sheet .tell .name { font-weight: 700; }
.sheet .tell li { padding: .12rem 0; }
.sheet .tell .said { flex: 1; }
.sheet .home { border: .08em solid currentColor; border-radius: .9em; padding: 0 .5em; font-size: .85em; white-space: nowrap; }
.sheet aside.if { border: .1em dashed var(--ink); padding: .45rem .9rem .6rem; margin: .6rem 0; }
.sheet .lanes { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 16rem), 1fr)); gap: .3rem 1.5rem; }

.sheet .problems > li { padding: .25rem 0; }
.sheet .closing > section { margin-bottom: 1.2rem; }
.sheet .closing { margin-top: 2.6rem; border-top: .2rem solid var(--ink); padding-top: .8rem; }
.sheet .sources > li { display: grid; grid-template-columns: 2em 1fr; padding: .12rem 0; }

@media (max-width: 46rem) {
  .sheet .row, .sheet .row.wide { grid-template-columns: 1em auto minmax(0, 1fr); }
  .sheet .row.bare, .sheet .row.bare.wide { grid-template-columns: 1em minmax(0, 1fr); }
  .sheet .row > .tools, .sheet .row > .who, .sheet .row > .takes { grid-column: -2; text-align: left; }
  .sheet .row > span:empty, .sheet .cols { display: none; }
  .sheet .more, .sheet .nested { margin-left: 1.2em; }
}

@media screen and (prefers-color-scheme: dark) {
  :root {
    --paper: #14191b; --ink: #e6ecec; --soft: #b0bdc0; --rule: #5b686c; --faint: #333d40; --accent: #86c9d3;
    --wash: #1c2426; --alarm: #f0a49b; --on-alarm: #2a0704;
  }
}

@page {
  margin: 13mm 14mm 17mm;
  @bottom-left {
    content: "Drafting and teaching aid. Local codes, product labelling and licensed practice come first. No patient identifiers.";
    font: 7.5pt sans-serif; color: #333; text-align: left; white-space: nowrap;
  }
  @bottom-right { content: counter(page) " / " counter(pages); font: 8.5pt sans-serif; color: #111; width: 3em; }
}
@media print {
  :root {
    color-scheme: light;
    --paper: #fff; --ink: #000; --soft: #333; --rule: #888; --faint: #bbb; --accent: #0c4f5c; --wash: #fff; --alarm: #000; --on-alarm: #fff;
  }
  html:has(> body.sheet) { font-size: 9.2pt; }
  body.sheet { line-height: 1.34; }
  .sheet .steps > li { padding: .26rem 0; }
  .sheet .banner { display: none; }
  .sheet .frame > thead { display: table-header-group; }
  .sheet .frame > * > tr > td { padding-inline: .3mm; }
  .sheet .frame > thead td { padding-bottom: 3.5mm; }
  .sheet .running { display: flex; gap: 1.5em; align-items: center; border-bottom: .6pt solid #000; padding-bottom: 1.2mm; font-size: 8.5pt; }
  .sheet .running .what { flex: 1; font-weight: 600; }
  .sheet .mark { border-width: 1.2pt; print-color-adjust: exact; }
  .sheet .mark.unfit { background: #000; color: #fff; border-color: #000; }
  .sheet .page { max-width: none; padding: 0; }
  .sheet .drawing > svg { min-width: 0; }
  .sheet .title { border-top: 0; padding-top: 0; }
  .sheet h1 { font-size: 19pt; }
  .sheet .visit h2 { font-size: 14pt; }
  .sheet .head { columns: 2; column-gap: 8mm; margin-top: 4mm; }
  .sheet .head > section { padding-bottom: 4mm; }
  .sheet .head .list { line-height: 1.28; }
  .sheet .visit, .sheet .closing > section { margin-bottom: 1.2rem; }
.sheet .closing { margin-top: 7mm; }
  .sheet .interval { margin-top: 6mm; }
  .sheet .pause .items { columns: 2; }
  .sheet .visit > header, .sheet h3, .sheet .cols, .sheet .pause > header, .sheet .tell .name, .sheet .due .name,
  .sheet .option > .name, .sheet .row:has(+ .nested), .sheet .row:has(+ .more) { break-after: avoid; }
  .sheet .pause, .sheet .row, .sheet .line, .sheet .start, .sheet .limit, .sheet .list > li, .sheet .tell, .sheet .due,
  .sheet .advice, .sheet .option, .sheet .sources > li, .sheet .problems > li, .sheet .interval { break-inside: avoid; }
  .sheet .steps > li.whole { break-inside: avoid; }
  .sheet .interval { break-after: avoid; }
  .sheet p, .sheet li { orphans: 3; widows: 3; }
}
`;
