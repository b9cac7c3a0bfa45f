/** A checklist says which set a figure comes from, wherever one stands on it. */
import { expect, test } from 'vitest';
import { everyItem, sheetOf, visitOf } from './sheets.ts';

const sheet = sheetOf(`
source leaflet "Leaflet" { by "The maker", year 2024 }
kind drug "drug" is material { most : mass from ceilings }
kind paste "paste" is material {
  rest   : time range from rests
  states dry -> wetted
}
drug strong "Strong"
paste grey "Grey paste"
figures of_leaflet "Ceilings of the leaflet" of ceilings { strong { most 500 mg source leaflet } }
figures of_handbook "Rests of the handbook" of rests { grey { rest 10..20 min source leaflet } }
apply of_leaflet because "Agreed"
apply of_handbook because "Agreed"
action give (drug d) (mass dose) {
  needs dose <= d.most because "More is a poison" source leaflet
}
action wet (paste p) {
  makes p wetted
  takes 1 min
}
action spread (paste p) { needs p wetted for p.rest }
rule careful "Less than the ceiling is enough" {
  whenever give (drug d) (mass dose)
  expect   dose < d.most
  severity warning
  why      "There is always a second need"
  source   common_practice
}
protocol p "P" {
  given { held : strong }
  materials { strong, grey }
  visit v "V" {
    give strong 100 mg
    wet grey
    wait 15 min
    spread grey
  }
}
`);

test('limits of a step name it', () => {
  const limits = everyItem(visitOf(sheet, 'v').steps).flatMap((item) => (item.type === 'step' ? item.limits : []));
  expect(limits.map(({ text }) => text)).toEqual([
    'dose (100 mg) is at most the most of Strong (500 mg, ceilings: Ceilings of the leaflet)',
    'Less than the ceiling is enough (ceilings: Ceilings of the leaflet)',
    'grey wetted for 10–20 min (rests: Rests of the handbook)',
  ]);
});

test('a running clock names it', () => {
  const clocks = everyItem(visitOf(sheet, 'v').steps).flatMap((item) => (item.type === 'step' ? item.clocks : []));
  expect(clocks.map(({ limit }) => limit)).toEqual(['10–20 min (rests: Rests of the handbook)']);
});

test('what is given with a figure of a set names it, with its source', () => {
  const [held] = sheet.given;
  expect(held?.facts).toEqual([
    { name: 'most', value: '500 mg (ceilings: Ceilings of the leaflet)', source: expect.any(Number) },
  ]);
});
