/** The part of the XML parser that the tests use; it comes without types. */
declare module 'sax' {
  interface Parser {
    onopentag: (tag: { readonly name: string; readonly attributes: Readonly<Record<string, string>> }) => void;
    onclosetag: (name: string) => void;
    ontext: (text: string) => void;
    onerror: (error: Error) => void;
    write(text: string): Parser;
    close(): Parser;
  }
  export function parser(strict: boolean): Parser;
}
