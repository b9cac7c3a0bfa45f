import { languageConfiguration, textMateGrammar } from './textmate.ts';

/** The files VS Code reads, paths from the project's root. */
export function generate(): readonly { path: string; text: string }[] {
  return [
    { path: 'grammar/curette.tmLanguage.json', text: file(textMateGrammar()) },
    { path: 'grammar/language-configuration.json', text: file(languageConfiguration()) },
  ];
}

function file(value: unknown): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}
