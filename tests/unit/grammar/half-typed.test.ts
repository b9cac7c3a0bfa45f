import { expect, test } from 'vitest';
import { read } from './show.ts';

/** What is written survives, and what is missing is said in plain words. */
const lines: [container: Parameters<typeof read>[1], line: string, shown: string][] = [
  ['steps', 'lay', 'step verb=lay'],
  ['steps', 'lay cover on ', 'step verb=lay parts=(cover) on() !unreadable[what to lay it on]'],
  ['steps', 'pack graft into', 'step verb=pack parts=(graft) into() !unreadable[what to pack it into]'],
  ['steps', 'lay cover on by surgeon', 'step verb=lay parts=(cover) on() by=[surgeon] !unreadable[what to lay it on]'],
  [
    'steps',
    'extract site takes',
    'step verb=extract parts=(site) takes=? !unreadable[a time such as 10 min after "takes"]',
  ],
  ['steps', 'extract site takes 10', 'step verb=extract parts=(site) takes=10 !unreadable[a unit of time after 10]'],
  ['steps', 'extract site takes 10..', 'step verb=extract parts=(site) takes=10..? !unreadable[a number after ".."]'],
  [
    'steps',
    'extract site takes 10..40',
    'step verb=extract parts=(site) takes=10..40 !unreadable[a unit of time after 40]',
  ],
  [
    'steps',
    'extract site takes 5 min usually',
    'step verb=extract parts=(site) takes=5 min !unreadable[a time such as 10 min after "usually"]',
  ],
  ['steps', 'lay cover by', 'step verb=lay parts=(cover) !unreadable[a role after "by"]'],
  ['steps', 'lay cover because', 'step verb=lay parts=(cover) !unreadable[the reason, in quotes, after "because"]'],
  ['steps', 'lay cover source', 'step verb=lay parts=(cover) !unreadable[the name of a source after "source"]'],
  ['steps', 'lay graft.', 'step verb=lay parts=(graft) !unreadable[a name after "."]'],
  ['steps', 'trim cover to 9 mm by', 'step verb=trim parts=(cover) to(9 mm) !unreadable[a role after "by"]'],
  ['steps', 'wait', 'wait !unreadable[a time such as 10 min, or "until" and a state, after "wait"]'],
  ['steps', 'wait 10', 'wait duration=10 !unreadable[a unit of time after 10]'],
  ['steps', 'wait until', 'wait !unreadable[what to wait for after "until"]'],
  ['steps', 'wait until graft is', 'wait until=(graft is ?) !unreadable[a kind, a state or a value after "is"]'],
  ['steps', 'wait until graft is wetted for', 'wait until=(graft is wetted) !unreadable[a value after "for"]'],
  ['steps', 'verify', 'verify !unreadable[what is measured or looked at after "verify"]'],
  ['steps', 'verify depth of', 'verify what=depth !unreadable[a thing after "of"]'],
  [
    'steps',
    'verify depth of socket within',
    'verify what=depth of=socket !unreadable[the range that is accepted after "within"]',
  ],
  [
    'steps',
    'verify depth otherwise',
    'verify what=depth otherwise=true !unreadable[what to do, in quotes or as a block { … } of steps, after "otherwise"]',
  ],
  ['steps', 'decide', 'decide !unreadable[a finding after "decide"]'],
  ['steps', 'decide wall', 'decide findings=[wall] !unreadable[a block { … } of options]'],
  ['steps', 'pause', 'pause step !unreadable[the name of a pause after "pause"]'],
  ['steps', 'record', 'record !unreadable[what to keep, such as photograph, after "record"]'],
  ['steps', 'instruct', 'instruct !unreadable[what the patient is told, in quotes, after "instruct"]'],
  [
    'steps',
    'repeat until "dry" at most',
    'repeat until="dry" !unreadable["once" or a number of times after "at most"]',
  ],
  ['options', 'option', 'option values=[[]] !unreadable[a value of the finding, or "any", after "option"]'],
  ['given', 'site : ', 'thing name=site !unreadable[what "site" is after ":"]'],
  ['given', 'graft : granules 0.5', 'thing name=graft kind=granules amount=0.5'],
  ['protocol', 'owner', 'owner !unreadable[who answers for it, in quotes, after "owner"]'],
  ['protocol', 'version', 'version !unreadable[a version such as 1.0.0 after "version"]'],
  ['protocol', 'review every', 'review !unreadable[a time such as 12 mo after "every"]'],
  ['protocol', 'approved 2026-02-03 by', 'approved date=2026-02-03 !unreadable[who, in quotes, after "by"]'],
  ['protocol', 'exclude', 'exclude !unreadable["when" after "exclude"]'],
  ['protocol', 'exclude when patient has', 'exclude condition=(patient has ?) !unreadable[what it is after "has"]'],
  ['protocol', 'exclude when a and', 'exclude condition=(a and ?) !unreadable[a condition after "and"]'],
  ['protocol', 'visit surgery', 'visit name=surgery !unreadable[a block { … } of steps]'],
  [
    'kind',
    'particle :',
    'property name=particle !unreadable[what it holds, such as "length", "text" or a kind, after ":"]',
  ],
  [
    'kind',
    'limit : mass from',
    'property name=limit value=quantity(mass) !unreadable[a group of sets of figures after "from"]',
  ],
  ['file', 'figures', 'figures !unreadable[a name after "figures"]'],
  [
    'file',
    'figures leaflet',
    'figures name=leaflet !unreadable["of" and the group of sets that it belongs to after "leaflet"]',
  ],
  [
    'file',
    'figures leaflet "Leaflet" of',
    'figures name=leaflet label="Leaflet" !unreadable[the group of sets that it belongs to after "of"]',
  ],
  [
    'file',
    'figures leaflet of limits',
    'figures name=leaflet group=limits !unreadable[a block { … } with the figures]',
  ],
  ['figures', 'granules', 'figure name=granules !unreadable[a block { … } with its figures]'],
  ['figure', 'limit', 'value name=limit !unreadable[a value after "limit"]'],
  ['file', 'apply', 'apply !unreadable[a set of figures after "apply"]'],
  ['file', 'apply leaflet because', 'apply name=leaflet !unreadable[the reason, in quotes, after "because"]'],
  ['protocol', 'apply leaflet', 'apply name=leaflet !misplaced[outside of every block]'],
  [
    'protocol',
    'apply gel to',
    'step verb=apply parts=(gel) to() !misplaced[inside a visit] !unreadable[what to apply it to]',
  ],
  ['kind', 'states dry ->', 'states chains=[[dry]] !unreadable[a state after "->"]'],
  ['kind', 'must end', 'must end !unreadable[a state after "end"]'],
  [
    'kind',
    'must end packed by',
    'must end states=[packed] !unreadable["end of visit" or "end of protocol" after "by"]',
  ],
  ['kind', 'wetted lasts', 'lasts state=wetted !unreadable["at most" after "lasts"]'],
  [
    'kind',
    'wall : one of',
    'property name=wall value=one of() !unreadable[the values, with commas between, after "of"]',
  ],
  ['action', 'needs g wetted for', 'needs conditions=[(g : wetted)] !unreadable[a value after "for"]'],
  ['action', 'makes g', 'makes effects=[g:?] !unreadable[the new state after "g"]'],
  ['action', 'uses', 'uses up !unreadable["up" after "uses"]'],
  ['file', 'action pack (graft g', 'action verb=pack slots=[(graft g)] !unreadable[")" after "g"]'],
  [
    'file',
    'action pack (graft g) into',
    'action verb=pack slots=[(graft g), into(?)] !unreadable[a kind in brackets, such as "(material m)", after "into"]',
  ],
  ['file', 'use', 'use !unreadable[the library file or the file beside this one after "use"]'],
  ['file', 'unit drop is', 'unit names=[drop] !unreadable[a quantity such as 0.05 mL, or "count", after "is"]'],
  ['file', 'kind graft is', 'kind name=graft !unreadable[a kind after "is"]'],
  ['file', 'kind', 'kind !unreadable[a name after "kind"]'],
  ['file', 'case c', 'case name=c !unreadable["of" and a protocol after "c"]'],
  ['rule', 'whenever', 'whenever !unreadable[a step such as "place (material m) on (place p)" after "whenever"]'],
  ['rule', 'expect x <', 'expect condition=(x < ?) !unreadable[a value after "<"]'],
  ['rule', 'expect x +', 'expect condition=(x + ?) !unreadable[a value after "+"]'],
  ['rule', 'expect not', 'expect condition=(not ?) !unreadable[a condition after "not"]'],
  ['rule', 'expect min(a, ', 'expect condition=min(a) !unreadable[a value after ","]'],
  ['rule', 'between a', 'between first=<a> !unreadable["and" and the other step after "a"]'],
  ['rule', 'order a', 'order first=<a> !unreadable["before", "after", "first" or "last" after "a"]'],
  ['rule', 'count a at most 2', 'count pattern=<a> bound=at most times=2 !unreadable["times" after 2]'],
  [
    'rule',
    'count a in a',
    'count pattern=<a> !unreadable["exactly once", "at least", "at most" or "never" after "a"] !unreadable["visit" or "protocol" after "a"]',
  ],
];

test.each(lines)('in %s: %s', (container, line, shown) => {
  expect(read(line, container)).toBe(shown);
});

test('words that do not fit are one flaw, and the rest of the line is read', () => {
  expect(read('owner Larkfield unit', 'protocol')).toBe(
    'owner !unreadable[who answers for it, in quotes, after "owner"]',
  );
  expect(read('severity error banana', 'rule')).toBe('severity level=error !unreadable[the end of the line]');
});

test('a clause said twice is told', () => {
  expect(read('lay a takes 1 min takes 2 min', 'steps')).toBe(
    'step verb=lay parts=(a) takes=2 min !unreadable[only one "takes" on a line]',
  );
});
