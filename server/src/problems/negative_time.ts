import type { QuantityNode } from '@curette/grammar';
import { type Place, problemKind } from './problem.ts';
import { measureSource, rangeSource } from './words.ts';

interface Data {
  readonly node: QuantityNode;
  readonly place: Place;
}

export const negativeTime = problemKind<Data>({
  code: 'negative_time',
  severity: 'error',
  title: 'Negative time',
  page: `A time is written with a minus. Nothing takes less than no time, and no wait goes back, so the line is read as if it did not say how long.

Most often the minus was meant for a range, or as a dash: a range is written \`5..10 min\`. Where something has to come *before* something else, move its line up.`,
  triggers: `
// quiet: missing_head
action extract (place p) {
  takes -5 min
  //    ^^^^^^ negative_time
}

protocol extraction "Extraction" {
  given { site : place }
  visit surgery "Surgery" {
    extract site takes -5..10 min
    //                 ^^^^^^^^^^ negative_time
    wait -3 min
    //   ^^^^^^ negative_time
  }
}
`,
  silent: `
// quiet: missing_head
action extract (place p) {
  takes 5 min
}

protocol extraction "Extraction" {
  given { site : place }
  visit surgery "Surgery" {
    extract site takes 5..10 min
    wait 3 min
  }
}
`,
  words: ({ node, place }) => ({
    message: `A time is never less than nought: ${written(node, (value) => value)} has a minus.`,
    label: 'below nought',
    mends: [
      {
        title: `Change to "${written(node, Math.abs)}"`,
        edits: [{ type: 'replace', place, text: written(node, Math.abs) }],
      },
    ],
  }),
});

function written(node: QuantityNode, sign: (value: number) => number): string {
  const low = node.low && { ...node.low, value: sign(node.low.value) };
  const high = node.high && { ...node.high, value: sign(node.high.value) };
  if (low && high) {
    const swapped = low.value > high.value && (low.unit === undefined || low.unit.text === high.unit?.text);
    return swapped ? rangeSource({ ...high, unit: low.unit }, { ...low, unit: high.unit }) : rangeSource(low, high);
  }
  const only = low ?? high;
  const bound = node.form === 'at least' || node.form === 'at most' || node.form === 'exactly' ? `${node.form} ` : '';
  return only ? `${bound}${measureSource(only)}` : '';
}
