import { caseFaults } from './case-faults.ts';
import { graftedSocketFaults } from './grafted-socket-faults.ts';
import { skinExcisionFaults } from './skin-excision-faults.ts';
import { stagedImplantFaults } from './staged-implant-faults.ts';

/** Every mistake that is tried. */
export const faults = [...graftedSocketFaults, ...stagedImplantFaults, ...skinExcisionFaults, ...caseFaults];
