/** A protocol of a given number of lines, one step a line, without a fault until one is typed into it. */
export interface BenchDocument {
  readonly lines: readonly string[];
  /** the lines that hold `anchor`, from the first to the last */
  readonly sites: readonly number[];
}

/** Behind these characters one more letter turns the unit into none: one error. Taking the letter away mends it. */
export const anchor = 'takes 2..4 ';
export const slip = 'x';

/**
 * @param count lines of the document, 60 or more
 * @param uses paths of other files to use, beside the shipped library
 */
export function protocolOf(count: number, uses: readonly string[] = []): BenchDocument {
  const head = [...opening(uses)];
  const body: string[] = [];
  const room = count - head.length - CLOSING.length;
  while (body.length < room) {
    const at = body.length;
    if (at % 50 === 40 && room - at > 6) body.push(...decision(at));
    else body.push(`    ${STEPS[at % STEPS.length]?.(at)}`);
  }
  const lines = [...head, ...body, ...CLOSING];
  return { lines, sites: lines.flatMap((line, at) => (line.includes(anchor) ? [at] : [])) };
}

/** Where the letter goes: line, and column in UTF-16 units. */
export function slipAt(document: BenchDocument, site: number): { readonly line: number; readonly character: number } {
  const line = document.sites[site] ?? 0;
  return { line, character: (document.lines[line] ?? '').indexOf(anchor) + anchor.length };
}

const opening = (uses: readonly string[]): readonly string[] => [
  'use std/perioperative',
  'use std/anaesthesia',
  'use std/wound',
  'use std/oral',
  ...uses.map((path) => `use ${path}`),
  'apply canadian_ceilings because "Chosen"',
  'apply dental_vasoconstrictor_ceilings because "Chosen"',
  '',
  'protocol long_run "A long visit" {',
  '  version 1.0.0',
  '  status  draft',
  '  owner   "Oral surgery"',
  '',
  '  given {',
  '    patient : patient { mass 50..110 kg }',
  '    film    : image { view periapical }',
  '    site    : tooth',
  '    socket  : socket { tooth site }',
  '  }',
  '  exclude when patient allergic to amide_anaesthetic',
  '  exclude when patient allergic to sulfite',
  '  exclude when patient has jaw_radiotherapy',
  '  exclude when patient takes high_dose_antiresorptive',
  '  caution when patient takes antiresorptive',
  '  caution when patient takes vitamin_k_antagonist',
  '  caution when patient takes direct_oral_anticoagulant',
  '  team { surgeon, assistant }',
  '  materials {',
  '    numbing : articaine_4_with_epinephrine 2 cartridges',
  '    saline  : sterile_saline 500 mL',
  '    bite    : folded_gauze',
  '  }',
  '  instruments { extraction_forceps, periodontal_probe, spoon_curette }',
  '',
  '  visit surgery "Extraction" {',
  '    pause sign_in',
  '    review film by surgeon',
  '    inject numbing 1.7 mL at site by surgeon',
  '    wait 5..10 min because "The injection takes"',
  '    test site with periodontal_probe',
  '    pause time_out',
  '    extract site with extraction_forceps',
];

const STEPS: readonly ((at: number) => string)[] = [
  () => `irrigate socket with saline ${anchor}min by assistant`,
  () => `debride socket with spoon_curette ${anchor}min by surgeon`,
  (at) => `instruct "Breathe through the nose, ${at}"`,
  () => 'verify "The walls are clean" otherwise "Debride again"',
  (at) => `note "Step ${at} of many"`,
];

const decision = (at: number): readonly string[] => [
  '    decide buccal_wall "Probe the buccal wall" {',
  `      option intact { note "Whole at ${at}" }`,
  '      otherwise {',
  `        irrigate socket with saline ${anchor}min by assistant`,
  '      }',
  '    }',
];

const CLOSING: readonly string[] = ['    apply bite on socket', '    pause sign_out', '  }', '}'];
