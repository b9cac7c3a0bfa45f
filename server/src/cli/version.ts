/** The version in `server/package.json`; a test keeps the two the same. */
export const toolVersion = '0.1.0';
