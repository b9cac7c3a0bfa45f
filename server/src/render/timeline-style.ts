/**
 * The style of the drawing: one ink and one accent, on light and on dark paper, and nothing that hangs on colour: what is certain is
 * solid, what is not is hatched or a line, what is critical has a thick edge and a sign.
 */
export const timelineStyle = `
.timeline {
  color-scheme: light dark;
  --paper: #ffffff; --ink: #192226; --soft: #465257; --rule: #b4bec0; --faint: #dfe5e6; --wash: #f3f6f6;
  --accent: #0c4f5c; --alarm: #8a1a12; --on-alarm: #ffffff;
  font-family: "Source Sans 3", "Segoe UI", "Noto Sans", "Liberation Sans", "Helvetica Neue", Arial, sans-serif;
  font-variant-numeric: tabular-nums;
}
.timeline .paper { fill: var(--paper); }
.timeline text { fill: var(--ink); font-size: 13px; }
.timeline text.soft { fill: var(--soft); }
.timeline text.small { font-size: 11.5px; }
.timeline text.title { font-size: 24px; font-weight: 600; }
.timeline text.visit { font-size: 18px; font-weight: 600; }
.timeline text.band { font-weight: 700; fill: var(--accent); }
.timeline text.bold { font-weight: 700; }
.timeline text.on-alarm { fill: var(--on-alarm); font-weight: 700; }
.timeline .alarm { fill: var(--alarm); }
.timeline .wash { fill: var(--wash); }
.timeline .grid { stroke: var(--faint); stroke-width: 1; }
.timeline .rule { stroke: var(--rule); stroke-width: 1; }
.timeline .strong { stroke: var(--ink); stroke-width: 2; }
.timeline .tab { fill: var(--accent); }
.timeline .quick { fill: var(--accent); stroke: var(--ink); stroke-width: 1; }
.timeline .slow { fill: url(#curette-hatch); stroke: var(--ink); stroke-width: 1; }
.timeline .blank { fill: var(--paper); }
.timeline .hatch { stroke: var(--ink); stroke-width: 1.1; }
.timeline .between { stroke: var(--ink); stroke-width: 1; fill: none; }
.timeline .critical { stroke-width: 2.8; }
.timeline .sign { fill: var(--ink); }
.timeline .mark { fill: var(--paper); stroke: var(--ink); stroke-width: 1.6; }
.timeline .bracket { fill: none; stroke: var(--ink); stroke-width: 2; }
.timeline .ran { stroke: var(--ink); stroke-width: 3; }
.timeline .allowed { fill: var(--wash); stroke: var(--rule); stroke-width: 1; }
.timeline .rest { fill: var(--paper); stroke: var(--ink); stroke-width: 1.2; stroke-dasharray: 2 2.5; }
.timeline .quickly { stroke-dasharray: none; }
@media screen and (prefers-color-scheme: dark) {
  .timeline {
    --paper: #14191b; --ink: #e6ecec; --soft: #b0bdc0; --rule: #5b686c; --faint: #2b3437; --wash: #1a2123;
    --accent: #86c9d3; --alarm: #f0a49b; --on-alarm: #2a0704;
  }
}
@media print {
  .timeline {
    color-scheme: light;
    --paper: #fff; --ink: #000; --soft: #333; --rule: #999; --faint: #ddd; --wash: #f4f4f4; --accent: #0c4f5c; --alarm: #000;
    --on-alarm: #fff; print-color-adjust: exact;
  }
}
`;
