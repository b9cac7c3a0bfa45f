// A language server for the toy language on Langium's defaults; it waits for nothing on purpose.
import { createServicesForGrammar } from 'langium/grammar';
import { startLanguageServer } from 'langium/lsp';
import { NodeFileSystem } from 'langium/node';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node.js';
import { grammar } from './steps-grammar.mjs';

const connection = createConnection(ProposedFeatures.all, process.stdin, process.stdout);
const { shared } = await createServicesForGrammar({
  grammar,
  languageMetaData: { languageId: 'steps', fileExtensions: ['.steps'], caseInsensitive: false, mode: 'production' },
  sharedModule: {
    lsp: { Connection: () => connection },
    workspace: { FileSystemProvider: () => NodeFileSystem.fileSystemProvider() },
  },
});
startLanguageServer(shared);
