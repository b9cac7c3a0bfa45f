/**
 * The colours of the page in the editor's theme, light, dark or of high contrast, in place of those it has on paper; and the look of
 * what stands around it.
 */
const colours = `
  --paper: var(--vscode-editor-background); --ink: var(--vscode-editor-foreground);
  --soft: color-mix(in srgb, var(--ink) 78%, var(--paper)); --rule: color-mix(in srgb, var(--ink) 45%, var(--paper));
  --faint: color-mix(in srgb, var(--ink) 20%, var(--paper)); --wash: color-mix(in srgb, var(--ink) 6%, var(--paper));
  --accent: var(--vscode-textLink-foreground); --alarm: color-mix(in srgb, var(--vscode-errorForeground) 68%, var(--ink)); --on-alarm: var(--paper);
`;

export const themeStyle = `
:root, .timeline { ${colours} }
body { padding: 0; background: var(--paper); color: var(--ink); }
body.vscode-high-contrast { --soft: var(--ink); --rule: var(--vscode-contrastBorder); --faint: var(--vscode-contrastBorder); --wash: var(--paper); }
#preview-bar {
  position: sticky; top: 0; z-index: 3; display: flex; flex-wrap: wrap; gap: .35rem .7rem; align-items: center;
  padding: .4rem .8rem; background: var(--paper); border-bottom: 1px solid var(--rule);
  font: var(--vscode-font-size, 13px)/1.4 var(--vscode-font-family, sans-serif);
}
#preview-bar [role="tablist"] { display: flex; gap: .1rem; margin-right: auto; }
#preview-bar button, #preview-bar select {
  font: inherit; color: var(--ink); background: transparent; border: 1px solid transparent; border-radius: .2rem; padding: .15rem .5rem;
}
#preview-bar select { background: var(--vscode-dropdown-background, var(--paper)); color: var(--vscode-dropdown-foreground, var(--ink)); border-color: var(--rule); max-width: 10rem; padding: .15rem .2rem; }
#preview-bar label { display: flex; gap: .4rem; align-items: center; }
#preview-bar label[hidden] { display: none; }
#preview-bar button { border-color: var(--rule); cursor: pointer; }
#preview-bar button:hover { background: var(--wash); }
#preview-bar button:disabled { opacity: .55; cursor: default; }
#preview-bar [role="tab"] { border-color: transparent; border-bottom: .15rem solid transparent; border-radius: 0; }
#preview-bar [role="tab"][aria-selected="true"] { border-bottom-color: var(--accent); font-weight: 600; }
#preview-bar button[aria-pressed="true"] { border-color: var(--ink); box-shadow: inset 0 0 0 1px var(--ink); }
#preview-bar :focus-visible, #preview-lines :focus-visible { outline: 2px solid var(--vscode-focusBorder, var(--accent)); outline-offset: 1px; }
#preview-failure { margin: 0; padding: .5rem .8rem; background: var(--alarm); color: var(--on-alarm); }
#preview-panel { position: relative; padding-left: 2.6rem; }
#preview-lines { position: absolute; inset: 0 auto 0 0; width: 100%; pointer-events: none; }
#preview-lines button {
  position: absolute; left: .2rem; width: 2.2rem; padding: 0 .2rem; border: 0; background: transparent; cursor: pointer; pointer-events: auto;
  color: var(--soft); text-align: right; font: .78rem/1.5 var(--vscode-editor-font-family, monospace);
}
#preview-lines button:hover, #preview-lines button[aria-current] { color: var(--ink); font-weight: 700; }
#preview-here { position: absolute; left: 0; right: 0; border-left: .25rem solid var(--accent); background: color-mix(in srgb, var(--accent) 9%, transparent); }
#preview-page { position: relative; }
#preview-page [data-line] { cursor: pointer; }
#preview-page [data-line]:hover { outline: 1px dashed var(--rule); outline-offset: 2px; }
#preview-page .tick { cursor: inherit; opacity: .6; }
.sheet .banner { position: static; margin-left: -2.6rem; padding-inline: 3rem 1.2rem; }
.sheet:has(.drawing) .banner, .sheet:has(main > .visit > header + .problems) .title .summary { display: none; }
#preview-page .timeline > .paper { fill: transparent; }
.sheet .page { margin-inline: 0; padding: 1rem 1.2rem 4rem .4rem; }
`;
