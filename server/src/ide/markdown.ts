/** Text of a protocol in markdown: shown as it is written, whatever signs it has. */
export function plainly(text: string): string {
  return text
    .replace(/[\\`*_{}[\]<>#|~&!]/g, '\\$&')
    .replace(/^(\s*)([-+]|\d+[.)])(?=\s)/gm, '$1\\$2')
    .replace(/\s*\n\s*/g, ' ');
}

/** A name, or a line in the language. */
export function code(text: string): string {
  return `\`${text.replaceAll('`', "'").replace(/\s*\n\s*/g, ' ')}\``;
}

/** Words with a capital at their beginning. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
