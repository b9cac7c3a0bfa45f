import type { Timeline } from '@curette/shared';
import { html } from './markup.ts';
import { sheetPage } from './sheet.ts';
import { timelineStyle } from './timeline-style.ts';
import { timelineSvg } from './timeline-svg.ts';

/** The drawing of a timeline in a page that needs nothing else. */
export function timelineHtml(timeline: Timeline): string {
  return sheetPage(
    timeline,
    html`<main class="drawing" tabindex="0" aria-label="Timeline">${{ markup: timelineSvg(timeline) }}</main>`,
    [timelineStyle],
  );
}
