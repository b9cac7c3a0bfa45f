// Every file of the suite; each declares its tests when it is read.
import './language.ts';
import './problems.ts';
import './names.ts';
import './annotations.ts';
import './formatting.ts';
import './preview.ts';
import './semantic-tokens.ts';
import './folding.ts';
import './selection-ranges.ts';
import './document-links.ts';
import './signature-help.ts';
import './fix-all.ts';
import './workspace-check.ts';
import './references.ts';
import './rename.ts';
import './symbols.ts';
import './file-rename.ts';
