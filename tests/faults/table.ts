import { aestheticSiteFaults } from './aesthetic-site-faults.ts';
import { caseFaults } from './case-faults.ts';
import { connectiveTissueGraftFaults } from './connective-tissue-graft-faults.ts';
import { graftedSocketFaults } from './grafted-socket-faults.ts';
import { lostWallSocketFaults } from './lost-wall-socket-faults.ts';
import { oneStageImplantFaults } from './one-stage-implant-faults.ts';
import { ridgeAugmentationFaults } from './ridge-augmentation-faults.ts';
import { sinusFloorElevationFaults } from './sinus-floor-elevation-faults.ts';
import { skinExcisionFaults } from './skin-excision-faults.ts';
import { stagedImplantFaults } from './staged-implant-faults.ts';

/** Every mistake that is tried. */
export const faults = [
  ...graftedSocketFaults,
  ...lostWallSocketFaults,
  ...aestheticSiteFaults,
  ...stagedImplantFaults,
  ...oneStageImplantFaults,
  ...ridgeAugmentationFaults,
  ...sinusFloorElevationFaults,
  ...connectiveTissueGraftFaults,
  ...skinExcisionFaults,
  ...caseFaults,
];
