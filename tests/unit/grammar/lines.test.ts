import { expect, test } from 'vitest';
import { read } from './show.ts';

/** Each line, the block it stands in, and what it is read as. */
const lines: [container: Parameters<typeof read>[1], line: string, shown: string][] = [
  ['file', 'use std/oral', 'use path=std/oral'],
  ['file', 'use ../shared/policy', 'use path=../shared/policy'],
  ['file', 'use ./my-file.v2', 'use path=./my-file.v2'],
  ['file', 'unit drop, drops is 0.05 mL', 'unit names=[drop, drops] value=0.05 mL'],
  ['file', 'unit cartridge, cartridges is count', 'unit names=[cartridge, cartridges] count=true'],
  ['file', 'kind graft "bone graft" is material', 'kind name=graft label="bone graft" parent=material'],
  ['file', 'kind patient', 'kind name=patient'],
  ['file', 'material bone "Bone" is graft', 'entry group=material name=bone label="Bone" kind=graft'],
  ['file', 'soft_tissue gingiva "Gingiva"', 'entry group=soft_tissue name=gingiva label="Gingiva"'],
  ['file', 'status ready is state', 'entry group=status name=ready kind=state'],
  [
    'file',
    'action pack "Pack" (graft g) into (site s) with (condenser) in (optional count n)',
    'action verb=pack label="Pack" slots=[(graft g), into(site s), with(condenser), in(optional count n)]',
  ],
  [
    'file',
    'action pull (tooth t) with (one or more extraction_tool tool) at (rotational speed) for_it',
    'action verb=pull slots=[(tooth t), with(many extraction_tool tool), at(rotational speed)] !unreadable[the end of the line]',
  ],
  [
    'file',
    'action dose (drug d) (optional dose per body mass m) (text)',
    'action verb=dose slots=[(drug d), (optional dose per body mass m), (text)]',
  ],
  [
    'file',
    'procedure close "Close" (flap f) with (suture s) { }',
    'procedure verb=close label="Close" slots=[(flap f), with(suture s)]\n  {steps}',
  ],
  ['file', 'rule r "Why" { }', 'rule name=r label="Why"\n  {rule}'],
  ['file', 'source s "Title"', 'source name=s label="Title"'],
  [
    'file',
    'finding wall "Wall" { intact "Intact", lost }',
    'finding name=wall label="Wall"\n  {finding}\n  finding value name=intact label="Intact"\n  finding value name=lost',
  ],
  ['file', 'pause time_out "Before the cut"', 'pause name=time_out label="Before the cut"'],
  ['file', 'protocol p "T" { }', 'protocol name=p label="T"\n  {protocol}'],
  [
    'file',
    'case c "First" of p { site 14 }',
    'case name=c label="First" of=p\n  {case}\n  value name=site values=[14]',
  ],
  [
    'file',
    'case c of p { start 2027-03-01, has diabetes }',
    'case name=c of=p\n  {case}\n  start date=2027-03-01\n  relation relation=has values=[diabetes]',
  ],
  ['file', 'note "For whoever reads on"', 'note text="For whoever reads on"'],

  [
    'kind',
    'particle : length range within 1 um..5 mm source common_practice',
    'property name=particle value=quantity(length range) within=1 um..5 mm source=common_practice',
  ],
  ['kind', 'speed : rotational speed', 'property name=speed value=quantity(rotational speed)'],
  ['kind', 'ceiling : dose per body mass', 'property name=ceiling value=quantity(dose per body mass)'],
  ['kind', 'mineralised : yes or no', 'property name=mineralised value=yes or no'],
  ['kind', 'wall : one of thick, thin', 'property name=wall value=one of(thick, thin)'],
  ['kind', 'number : one of 11..14, 21', 'property name=number value=one of(11, 12, 13, 14, 21)'],
  ['kind', 'uses : any of cut, lift because "Both"', 'property name=uses value=any of(cut, lift) because="Both"'],
  ['kind', 'origin : text', 'property name=origin value=text'],
  ['kind', 'opening : size', 'property name=opening value=size'],
  ['kind', 'year : number', 'property name=year value=number'],
  ['kind', 'tooth : tooth', 'property name=tooth value=kind(tooth)'],
  ['kind', 'states : text', 'property name=states value=text'],
  [
    'kind',
    'states dry -> wetted -> packed, any -> discarded',
    'states chains=[[dry, wetted, packed], [any, discarded]]',
  ],
  [
    'kind',
    'wetted lasts at most soak.longest, then dried_out',
    'lasts state=wetted atMost=soak.longest then=dried_out',
  ],
  ['kind', 'open lasts at most 20 min source s', 'lasts state=open atMost=20 min source=s'],
  ['kind', 'must end packed or discarded by end of visit', 'must end states=[packed, discarded] by=end of visit'],
  [
    'kind',
    'must end out by end of protocol because "It comes out"',
    'must end states=[out] by=end of protocol because="It comes out"',
  ],
  ['kind', 'must end removed before pause sign_out', 'must end states=[removed] by=pause pause=sign_out'],
  ['kind', 'serves as graft_surface', 'serves as kind=graft_surface'],
  ['kind', 'has acute_infection, pregnancy', 'relation relation=has values=[acute_infection, pregnancy]'],
  ['kind', 'takes antiresorptive', 'relation relation=takes values=[antiresorptive]'],
  ['kind', 'allergic  to penicillin, latex', 'relation relation=allergic to values=[penicillin, latex]'],
  [
    'kind',
    'contraindicated when patient allergic to bovine_collagen because "…" source s',
    'contraindicated condition=(patient allergic to bovine_collagen) because="…" source=s',
  ],
  ['kind', 'source s', 'source reference source=s'],

  [
    'properties',
    'soak 10..60 min source common_practice',
    'value name=soak values=[10..60 min] source=common_practice',
  ],
  ['properties', 'store -18..-15 °C', 'value name=store values=[-18..-15 °C]'],
  ['properties', 'needles 1, 2', 'value name=needles values=[1, 2]'],
  ['properties', 'origin human, bovine', 'value name=origin values=[human, bovine]'],
  [
    'properties',
    'opening 7..9 mm by 6..8 mm, depth 9..12 mm',
    'value name=opening values=[7..9 mm by 6..8 mm]\nvalue name=depth values=[9..12 mm]',
  ],
  ['properties', 'tooth site', 'value name=tooth values=[site]'],
  ['properties', 'sharp yes', 'value name=sharp values=[yes]'],
  ['properties', 'ceiling 7 mg/kg because "Toxic"', 'value name=ceiling values=[7 mg/kg] because="Toxic"'],
  ['properties', 'pressure 20 mm[Hg]', 'value name=pressure values=[20 mm[Hg]]'],
  ['properties', 'dilution 1:100000', 'value name=dilution values=[1:100000]'],
  ['properties', 'contraindicated when patient has asthma', 'contraindicated condition=(patient has asthma)'],
  ['action', 'contraindicated when patient has asthma', 'contraindicated condition=(patient has asthma)'],
  [
    'kind',
    'caution when patient takes steroid because "…" source s',
    'caution condition=(patient takes steroid) because="…" source=s',
  ],
  [
    'properties',
    'caution when patient takes steroid because "…" source s',
    'caution condition=(patient takes steroid) because="…" source=s',
  ],
  [
    'action',
    'caution when patient takes steroid because "…" source s',
    'caution condition=(patient takes steroid) because="…" source=s',
  ],
  ['properties', 'has diabetes', 'relation relation=has values=[diabetes]'],

  [
    'action',
    'needs g wetted for g.soak, s debrided because "…"',
    'needs conditions=[(g : wetted for g.soak), (s : debrided)] because="…"',
  ],
  ['action', 'needs s.depth >= 8 mm', 'needs conditions=[(s.depth >= 8 mm)]'],
  ['action', 'makes g packed, s filled', 'makes effects=[g:packed, s:filled]'],
  ['action', 'uses up c at least g.amount', 'uses up thing=c bound=at least amount=g.amount'],
  ['action', 'uses up c at most 2 mL', 'uses up thing=c bound=at most amount=2 mL'],
  ['action', 'uses up d v', 'uses up thing=d amount=v'],
  ['action', 'uses up g', 'uses up thing=g'],
  ['action', 'takes 5..10 min usually 7 min because "…"', 'takes duration=5..10 min usually=7 min because="…"'],
  ['action', 'by surgeon, assistant', 'by roles=[surgeon, assistant]'],
  ['action', 'source s', 'source reference source=s'],

  ['rule', 'whenever lay (sheet m) on (place p)', 'whenever pattern=<lay (sheet m) on(place p)>'],
  ['rule', 'whenever pause time_out where x is y', 'whenever pattern=<pause time_out> where=(x is y)'],
  [
    'rule',
    'expect total d <= min(d.ceiling_per_mass * patient.mass, d.ceiling)',
    'expect condition=(total(d) <= min((d.ceiling_per_mass * patient.mass), d.ceiling))',
  ],
  [
    'rule',
    'between pack (graft g) and place (implant i) at least 4 mo',
    'between first=<pack (graft g)> second=<place (implant i)> bound=at least 4 mo',
  ],
  ['rule', 'for each drug d given in a visit', 'for each kind=drug name=d how=given scope=visit'],
  ['rule', 'for each material used in the protocol', 'for each kind=material how=used scope=protocol'],
  [
    'rule',
    'for all drug d given in a visit where patient has heart_disease',
    'for each together=true kind=drug name=d how=given scope=visit where=(patient has heart_disease)',
  ],
  ['rule', 'for all drug all given', 'for each together=true kind=drug name=all how=given'],
  ['rule', 'for drug d', 'for each kind=drug name=d !unreadable["each" or "all" after "for"]'],
  ['rule', 'order cut (tissue) before close', 'order first=<cut (tissue)> relation=before second=<close>'],
  ['rule', 'order pack only after wet (graft g)', 'order first=<pack> only=true relation=after second=<wet (graft g)>'],
  ['rule', 'order pause sign_in first in a visit', 'order first=<pause sign_in> relation=first scope=visit'],
  ['rule', 'order close last in the protocol', 'order first=<close> relation=last scope=protocol'],
  ['rule', 'count drill exactly once in a visit', 'count pattern=<drill> bound=exactly times=1 scope=visit'],
  ['rule', 'count drill at least once', 'count pattern=<drill> bound=at least times=1'],
  ['rule', 'count drill (site) at most 2 times', 'count pattern=<drill (site)> bound=at most times=2'],
  ['rule', 'count drill never', 'count pattern=<drill> bound=at most times=0'],
  [
    'rule',
    'pause time_out before extract (tooth)',
    'pause rule pause=time_out relation=before pattern=<extract (tooth)>',
  ],
  [
    'rule',
    'every anaesthetic declares concentration, ceiling',
    'every kind=anaesthetic properties=[concentration, ceiling]',
  ],
  ['rule', 'severity warning', 'severity level=warning'],
  ['rule', 'why "It works loose"', 'why text="It works loose"'],
  ['rule', 'source s', 'source reference source=s'],
  ['rule', 'replaces other_rule', 'replaces rule=other_rule'],

  [
    'source',
    'by "A body"\nyear 2009\nidentifier "x:1"\nstrength guideline',
    'value name=by values=["A body"]\nvalue name=year values=[2009]\nvalue name=identifier values=["x:1"]\nvalue name=strength values=[guideline]',
  ],
  [
    'pause',
    'item "Said aloud"\ntakes 1 min\nby surgeon\nsource s',
    'item text="Said aloud"\ntakes duration=1 min\nby roles=[surgeon]\nsource reference source=s',
  ],

  ['protocol', 'version 1.2.0', 'version version=1.2.0'],
  ['protocol', 'status in_review', 'status status=in_review'],
  ['protocol', 'owner "Unit"', 'owner owner="Unit"'],
  ['protocol', 'review every 12 mo', 'review every=12 mo'],
  ['protocol', 'reviewed 2026-02-01', 'reviewed date=2026-02-01'],
  ['protocol', 'approved 2026-02-03 by "Committee"', 'approved date=2026-02-03 by="Committee"'],
  ['protocol', 'follows other', 'follows protocol=other'],
  [
    'protocol',
    'exclude when patient has acute_infection or patient takes x because "…"',
    'exclude condition=((patient has acute_infection) or (patient takes x)) because="…"',
  ],
  ['protocol', 'caution when patient.mass < 40 kg source s', 'caution condition=(patient.mass < 40 kg) source=s'],
  [
    'protocol',
    'team { surgeon, assistant }',
    'team\n  {team}\n  team member name=surgeon\n  team member name=assistant',
  ],
  [
    'protocol',
    'instruments { periotome, small : bur 2 }',
    'instruments\n  {things}\n  thing name=periotome\n  thing name=small kind=bur amount=2',
  ],
  ['protocol', 'visit v "V" { }', 'visit name=v label="V"\n  {steps}'],
  ['protocol', 'wait 4..6 mo because "Healing"', 'wait duration=4..6 mo because="Healing"'],
  [
    'given',
    'site : tooth { number 14 }',
    'thing name=site kind=tooth\n  {properties}\n  value name=number values=[14]',
  ],
  ['given', 'cover : sheet 15 mm by 20 mm source s', 'thing name=cover kind=sheet amount=15 mm by 20 mm source=s'],

  ['steps', 'lay cover on graft', 'step verb=lay parts=(cover) on(graft)'],
  ['steps', 'inject numbing 1.7 mL at site', 'step verb=inject parts=(numbing 1.7 mL) at(site)'],
  [
    'steps',
    'rinse with saline 20..40 mL, cord.length until "clear"',
    'step verb=rinse parts=with(saline 20..40 mL, cord.length) until("clear")',
  ],
  [
    'steps',
    'trim cover to 9 mm by 8 mm with scissors by assistant',
    'step verb=trim parts=(cover) to(9 mm by 8 mm) with(scissors) by=[assistant]',
  ],
  ['steps', 'drill site at 800 /min in 4 increments', 'step verb=drill parts=(site) at(800 /min) in(4 increments)'],
  ['steps', 'tighten screw to at most 35 N.cm', 'step verb=tighten parts=(screw) to(at most 35 N.cm)'],
  ['steps', 'irrigate site at least 20 mL', 'step verb=irrigate parts=(site at least 20 mL)'],
  [
    'steps',
    'press gauze because "…" takes 5 min usually 4 min source s by a, b',
    'step verb=press parts=(gauze) takes=5 min usually 4 min by=[a, b] because="…" source=s',
  ],
  ['steps', 'close', 'step verb=close'],
  ['steps', 'pause sign_in takes 1 min by surgeon', 'pause step name=sign_in takes=1 min by=[surgeon]'],
  ['steps', 'pause time_out { item "Added" }', 'pause step name=time_out\n  {pause}\n  item text="Added"'],
  ['steps', 'wait 10 min', 'wait duration=10 min'],
  ['steps', 'wait until graft is wetted for 10 min', 'wait until=(graft is wetted for 10 min)'],
  ['steps', 'verify depth of socket.wall within 9..12 mm', 'verify what=depth of=socket.wall within=9..12 mm'],
  [
    'steps',
    'verify opening of socket within 7..9 mm by 6..8 mm by surgeon otherwise { close }',
    'verify what=opening of=socket within=7..9 mm by 6..8 mm otherwise=true by=[surgeon]\n  {steps}\n  step verb=close',
  ],
  [
    'steps',
    'verify "Flat" otherwise "Again" because "…"',
    'verify what="Flat" otherwise=true otherwiseText="Again" because="…"',
  ],
  [
    'steps',
    'decide wall, gum "Probe" by surgeon { }',
    'decide findings=[wall, gum] label="Probe" by=[surgeon]\n  {options}',
  ],
  ['options', 'option intact or thin, any "…" { }', 'option values=[[intact, thin], [any]] label="…"\n  {steps}'],
  ['options', 'otherwise { close }', 'otherwise\n  {steps}\n  step verb=close'],
  ['steps', 'instruct "Soft food" at home', 'instruct text="Soft food" atHome=true'],
  ['steps', 'instruct "Bite" by assistant', 'instruct text="Bite" by=[assistant]'],
  ['steps', 'record photograph "Occlusal" of site', 'record what=photograph text="Occlusal" of=site'],
  [
    'lanes',
    'lane chairside "…" by surgeon, assistant { }',
    'lane name=chairside label="…" by=[surgeon, assistant]\n  {steps}',
  ],
  ['steps', 'repeat until "dry" at most 3 times { }', 'repeat until="dry" atMost=3\n  {steps}'],
  ['steps', 'repeat until site is dry { }', 'repeat until=(site is dry)\n  {steps}'],
  ['steps', 'complication "Breaks" { stop "Refer" }', 'complication label="Breaks"\n  {steps}\n  stop text="Refer"'],
  ['steps', 'note "Said \\"so\\" \\\\ here"', 'note text="Said \\"so\\" \\\\ here"'],
];

test.each(lines)('in %s: %s', (container, line, shown) => {
  expect(read(line, container)).toBe(shown);
});

test.each([
  ['a or b and not c is d', '(a or (b and (not (c is d))))'],
  ['not not a is b', '(not (not (a is b)))'],
  ['(a or b) and c is not d', '((a or b) and (c is not d))'],
  ['x + 2 mm * y - z / 3 < w', '(((x + (2 mm * y)) - (z / 3)) < w)'],
  ['a - 5 mm = -5 mm', '((a - 5 mm) = -5 mm)'],
  ['a within 2..3 mm', '(a within 2..3 mm)'],
  ['g is wetted for at least 10 min', '(g is wetted for at least 10 min)'],
  ['g wetted and s debrided', '((g : wetted) and (s : debrided))'],
  ['p.sharp = yes or p.sharp = no', '((p.sharp = yes) or (p.sharp = no))'],
  ['sum(a, b) > max(c, count(d))', '(sum(a, b) > max(c, count(d)))'],
  ['size = 2 mm by 3 mm by 4 mm', '(size = 2 mm by 3 mm by 4 mm)'],
  ['patient takes x and patient allergic to y', '((patient takes x) and (patient allergic to y))'],
  ['total <= 5 mg', '(total <= 5 mg)'],
])('the condition %s', (text, shown) => {
  expect(read(`expect ${text}`, 'rule')).toBe(`expect condition=${shown}`);
});

test('a word that begins a line elsewhere may be a name', () => {
  expect(read('lay visit on protocol with rule, version.count', 'steps')).toBe(
    'step verb=lay parts=(visit) on(protocol) with(rule, version.count)',
  );
  expect(read('visit : protocol\ndepth : rule', 'kind')).toBe(
    'property name=visit value=kind(protocol)\nproperty name=depth value=kind(rule)',
  );
});

test('names take letters of any alphabet, and case counts', () => {
  expect(read('größe µm_2 auf\nSägen Größe on ось', 'steps')).toBe(
    'step verb=größe parts=(µm_2) !unreadable[a preposition such as "with" or "on", one of "takes", "by", "because", "source", or the end of the line]\nstep verb=Sägen parts=(Größe) on(ось)',
  );
});

test('doc comments belong to the statement below them', () => {
  expect(read('/// One.\n///   Two.\n// no doc\n\nkind k\n/// Of nothing.')).toBe('/// One.\n///   Two.\nkind name=k');
});
