import { periodOf, WEEKDAYS } from '@curette/shared';
import { type Place, problemKind, type Wording } from './problem.ts';
import { listWords, meant } from './words.ts';

/** What is wrong in a settings file; keys as `closed.weekdays`. */
export type SettingsTrouble =
  | {
      readonly type: 'unusable';
      readonly why: 'not text' | 'too large' | 'unreadable' | 'outside' | 'too deep' | 'empty';
    }
  | { readonly type: 'not JSON'; readonly expects: string }
  | { readonly type: 'twice'; readonly key: string }
  /** `inside` is empty for the outermost braces */
  | { readonly type: 'unknown key'; readonly key: string; readonly inside: string; readonly place: Place }
  | {
      readonly type: 'wrong form';
      readonly path: string;
      readonly wanted: 'a list' | 'a text' | 'a group' | 'something else';
    }
  | { readonly type: 'no weekday'; readonly value: string; readonly place: Place }
  | { readonly type: 'no date'; readonly value: string; readonly place: Place }
  | { readonly type: 'reversed'; readonly value: string; readonly place: Place }
  | { readonly type: 'always closed' };

export const badSettings = problemKind<SettingsTrouble>({
  code: 'bad_settings',
  severity: 'error',
  title: 'Fault in the settings',
  page: `The file \`curette.json\` says what the protocols of its folder, and of the folders below, have to know of the place where they are carried out. So far that is on which days there are no visits:

\`\`\`json
{
  "closed": {
    "weekdays": ["saturday", "sunday"],
    "dates": ["2027-01-01", "2027-12-24/2027-12-31"]
  }
}
\`\`\`

Something in it is not so: it is no JSON, a key is not known, a day does not exist, or a period ends before it begins. What is wrong is left out of account, and everything else in the file counts. Without the file no day is closed.`,
  triggers: `
//- curette.json
{
  "closed": {
    "weekdays": ["saturday", "sonday"],
    //                       ^^^^^^^^ bad_settings
    "dates": ["2027-02-29", "2027-12-31/2027-12-24"],
    //        ^^^^^^^^^^^^ bad_settings
    //                      ^^^^^^^^^^^^^^^^^^^^^^^ bad_settings
    "days": []
//  ^^^^^^ bad_settings
  }
}
`,
  silent: `
//- curette.json
{
  "closed": {
    "weekdays": ["saturday", "sunday"],
    "dates": ["2027-01-01", "2027-12-24/2027-12-31"]
  }
}
`,
  words: (trouble): Wording => {
    switch (trouble.type) {
      case 'unusable':
        return { message: `The settings were not read: ${UNUSABLE[trouble.why]}. No day counts as closed.` };
      case 'not JSON':
        return {
          message: `The settings are not written as JSON: ${EXPECTED[trouble.expects] ?? 'something here cannot be read'}. What could be read of them counts.`,
          label: EXPECTED[trouble.expects] ?? 'cannot be read',
        };
      case 'twice':
        return {
          message: `"${trouble.key}" stands here twice; the first one counts. Put both into one.`,
          label: 'stands twice',
        };
      case 'unknown key': {
        const known = trouble.inside === '' ? OUTER : INNER;
        const { sentence, mends } = meant(trouble.key, known, trouble.place);
        const where = trouble.inside === '' ? '' : ` in "${trouble.inside}"`;
        return {
          message: `There is no setting "${trouble.key}"${where}.${
            sentence ||
            ` What can be set here is ${listWords(
              known.map((key) => `"${key}"`),
              'and',
            )}.`
          }`,
          label: 'not a setting',
          mends,
        };
      }
      case 'wrong form':
        return {
          message: `What ${trouble.path === '' ? 'the file' : `"${trouble.path}"`} holds has to be ${FORMS[trouble.wanted]}.`,
          label: FORMS[trouble.wanted],
        };
      case 'no weekday': {
        const { place, value } = trouble;
        const { sentence, mends } = meant(value.toLowerCase(), WEEKDAYS, place);
        return {
          message: `"${value}" is no weekday; they are written "monday" to "sunday".${sentence}`,
          label: 'no weekday',
          mends: mends.map((mend) => ({
            ...mend,
            edits: mend.edits.map((edit) => (edit.type === 'replace' ? { ...edit, text: `"${edit.text}"` } : edit)),
          })),
        };
      }
      case 'no date':
        return {
          message: `"${trouble.value}" is no date. Write a day as "2027-01-01" (year, month, day), and the days from one to another as "2027-12-24/2027-12-31".`,
          label: 'no such date',
        };
      case 'reversed': {
        const { from, to } = periodOf(trouble.value);
        const right = `"${to}/${from}"`;
        return {
          message: `This period ends, on ${to}, before it begins, on ${from}.`,
          label: 'ends before it begins',
          mends: [{ title: `Change to ${right}`, edits: [{ type: 'replace', place: trouble.place, text: right }] }],
        };
      }
      case 'always closed':
        return {
          message: 'All seven weekdays are closed, so there would never be a visit. Leave out those that are open.',
          label: 'every day is closed',
        };
      default:
        return trouble satisfies never;
    }
  },
});

const OUTER = ['closed'];
const INNER = ['weekdays', 'dates'];

const UNUSABLE: Readonly<Record<Extract<SettingsTrouble, { type: 'unusable' }>['why'], string>> = {
  'not text': 'the file is not a text file',
  'too large': 'the file is far larger than settings can be',
  unreadable: 'the file could not be read',
  outside: 'the file is a link that leads out of the workspace',
  empty: 'the file is empty; where nothing is to be said, write {}',
  'too deep': 'its brackets are far too deep inside one another',
};

const FORMS: Readonly<Record<Extract<SettingsTrouble, { type: 'wrong form' }>['wanted'], string>> = {
  'a list': 'a list in square brackets: [ … ]',
  'a text': 'texts in quotes: "…"',
  'a group': 'settings in braces: { … }',
  'something else': 'of another form',
};

/** By the parser's names of what it missed. */
const EXPECTED: Readonly<Record<string, string>> = {
  InvalidSymbol: 'a text has to stand in double quotes',
  InvalidNumberFormat: 'this is no number',
  PropertyNameExpected: 'a key in double quotes has to stand here, or the comma before it goes',
  ValueExpected: 'a value has to stand here, or the comma before it goes',
  ColonExpected: 'a colon has to stand behind the key',
  CommaExpected: 'a comma is missing',
  CloseBraceExpected: 'a closing brace is missing',
  CloseBracketExpected: 'a closing square bracket is missing',
  EndOfFileExpected: 'nothing may follow the last brace',
  InvalidCommentToken: 'comments have no place in JSON',
  UnexpectedEndOfComment: 'comments have no place in JSON',
  UnexpectedEndOfString: 'a quotation mark is missing',
  UnexpectedEndOfNumber: 'this is no number',
  InvalidUnicode: 'this is no sign',
  InvalidEscapeCharacter: 'a backslash stands for nothing here',
  InvalidCharacter: 'a text may not run over the end of its line',
};
