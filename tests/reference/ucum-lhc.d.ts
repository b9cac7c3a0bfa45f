/** The part of the UCUM reference library that the checks use; it comes without types. */
declare module '@lhncbc/ucum-lhc' {
  interface Validation {
    readonly status: 'valid' | 'invalid' | 'error';
    readonly ucumCode: string | null;
    readonly unit?: { readonly name: string };
  }
  interface Conversion {
    readonly status: 'succeeded' | 'failed' | 'error';
    readonly toVal: number | null;
    readonly msg: readonly string[];
  }
  interface Utils {
    validateUnitString(code: string): Validation;
    convertUnitTo(from: string, value: number, to: string): Conversion;
  }
  const library: { readonly UcumLhcUtils: { getInstance(): Utils } };
  export default library;
}
