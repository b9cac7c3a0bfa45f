// Made by "npm run generate" from the files of this folder. Do not edit.
import { badSettings } from './bad_settings.ts';
import { badUnit } from './bad_unit.ts';
import { calendarInVisit } from './calendar_in_visit.ts';
import { caseCautioned } from './case_cautioned.ts';
import { caseContraindicated } from './case_contraindicated.ts';
import { caseDayClosed } from './case_day_closed.ts';
import { caseExcluded } from './case_excluded.ts';
import { caseFactUnknown } from './case_fact_unknown.ts';
import { caseOutsideRange } from './case_outside_range.ts';
import { caseStart } from './case_start.ts';
import { caseValueUnclear } from './case_value_unclear.ts';
import { caseWithoutOption } from './case_without_option.ts';
import { checkOutsideStated } from './check_outside_stated.ts';
import { clockBroken } from './clock_broken.ts';
import { contraindicationOpen } from './contraindication_open.ts';
import { duplicateName } from './duplicate_name.ts';
import { emptyBlock } from './empty_block.ts';
import { endlessTime } from './endless_time.ts';
import { extraDetail } from './extra_detail.ts';
import { figureNotStated } from './figure_not_stated.ts';
import { figureOutsideGroup } from './figure_outside_group.ts';
import { figureOutsideSet } from './figure_outside_set.ts';
import { figuresConflict } from './figures_conflict.ts';
import { figuresNotApplied } from './figures_not_applied.ts';
import { foreignSign } from './foreign_sign.ts';
import { gapInOneSitting } from './gap_in_one_sitting.ts';
import { impossibleMove } from './impossible_move.ts';
import { internalFailure } from './internal_failure.ts';
import { kindOfItself } from './kind_of_itself.ts';
import { lanesConflict } from './lanes_conflict.ts';
import { leftUndone } from './left_undone.ts';
import { limitWithoutSource } from './limit_without_source.ts';
import { limitsConflict } from './limits_conflict.ts';
import { looksLikeIdentifier } from './looks_like_identifier.ts';
import { mergeMarker } from './merge_marker.ts';
import { misplacedLine } from './misplaced_line.ts';
import { missingFile } from './missing_file.ts';
import { missingHead } from './missing_head.ts';
import { missingSlot } from './missing_slot.ts';
import { negativeTime } from './negative_time.ts';
import { neverUsed } from './never_used.ts';
import { noOpenDay } from './no_open_day.ts';
import { notJudged } from './not_judged.ts';
import { notListed } from './not_listed.ts';
import { numberTooLarge } from './number_too_large.ts';
import { optionMissing } from './option_missing.ts';
import { optionTooWide } from './option_too_wide.ts';
import { optionUnknown } from './option_unknown.ts';
import { optionUnreachable } from './option_unreachable.ts';
import { outlastsState } from './outlasts_state.ts';
import { outsidePlausible } from './outside_plausible.ts';
import { overUsed } from './over_used.ts';
import { pauseInLane } from './pause_in_lane.ts';
import { procedureInItself } from './procedure_in_itself.ts';
import { propertyNotDeclared } from './property_not_declared.ts';
import { repeatCount } from './repeat_count.ts';
import { repeatWithoutLimit } from './repeat_without_limit.ts';
import { repeatedStep } from './repeated_step.ts';
import { reversedRange } from './reversed_range.ts';
import { reviewDate } from './review_date.ts';
import { reviewNotDated } from './review_not_dated.ts';
import { reviewOverdue } from './review_overdue.ts';
import { roleInTwoLanes } from './role_in_two_lanes.ts';
import { roleMayNot } from './role_may_not.ts';
import { roleNotInTeam } from './role_not_in_team.ts';
import { ruleBroken } from './rule_broken.ts';
import { ruleIncomplete } from './rule_incomplete.ts';
import { ruleLoosened } from './rule_loosened.ts';
import { ruleOrderBroken } from './rule_order_broken.ts';
import { ruleReplacedTwice } from './rule_replaced_twice.ts';
import { ruleTimeBroken } from './rule_time_broken.ts';
import { rulesInRing } from './rules_in_ring.ts';
import { strayClose } from './stray_close.ts';
import { timeNotStated } from './time_not_stated.ts';
import { timeOutsideAction } from './time_outside_action.ts';
import { tooDeep } from './too_deep.ts';
import { tooFewHands } from './too_few_hands.ts';
import { totalBroken } from './total_broken.ts';
import { unclosedBlock } from './unclosed_block.ts';
import { unclosedText } from './unclosed_text.ts';
import { undecidedNeed } from './undecided.ts';
import { unknownAction } from './unknown_action.ts';
import { unknownKind } from './unknown_kind.ts';
import { unknownName } from './unknown_name.ts';
import { unknownProperty } from './unknown_property.ts';
import { unknownState } from './unknown_state.ts';
import { unknownUnit } from './unknown_unit.ts';
import { unmetNeed } from './unmet_need.ts';
import { unreachableStep } from './unreachable_step.ts';
import { unreadableLine } from './unreadable_line.ts';
import { unusableFile } from './unusable_file.ts';
import { unusedUse } from './unused_use.ts';
import { useCycle } from './use_cycle.ts';
import { useOutside } from './use_outside.ts';
import { usualAsRange } from './usual_as_range.ts';
import { usualOutsideRange } from './usual_outside_range.ts';
import { valueOutsideSet } from './value_outside_set.ts';
import { verifyWithoutOtherwise } from './verify_without_otherwise.ts';
import { waitForRange } from './wait_for_range.ts';
import { waitInVain } from './wait_in_vain.ts';
import { wrongKind } from './wrong_kind.ts';
import { wrongMeasure } from './wrong_measure.ts';
import { wrongState } from './wrong_state.ts';
import { wrongValue } from './wrong_value.ts';
import { wrongWord } from './wrong_word.ts';
import { zeroTime } from './zero_time.ts';
import type { AnyProblemKind } from './problem.ts';

/** Every kind of problem, by its code. */
export const problemKinds: Readonly<Record<string, AnyProblemKind>> = {
  bad_settings: badSettings,
  bad_unit: badUnit,
  calendar_in_visit: calendarInVisit,
  case_cautioned: caseCautioned,
  case_contraindicated: caseContraindicated,
  case_day_closed: caseDayClosed,
  case_excluded: caseExcluded,
  case_fact_unknown: caseFactUnknown,
  case_outside_range: caseOutsideRange,
  case_start: caseStart,
  case_value_unclear: caseValueUnclear,
  case_without_option: caseWithoutOption,
  check_outside_stated: checkOutsideStated,
  clock_broken: clockBroken,
  contraindication_open: contraindicationOpen,
  duplicate_name: duplicateName,
  empty_block: emptyBlock,
  endless_time: endlessTime,
  extra_detail: extraDetail,
  figure_not_stated: figureNotStated,
  figure_outside_group: figureOutsideGroup,
  figure_outside_set: figureOutsideSet,
  figures_conflict: figuresConflict,
  figures_not_applied: figuresNotApplied,
  foreign_sign: foreignSign,
  gap_in_one_sitting: gapInOneSitting,
  impossible_move: impossibleMove,
  internal_failure: internalFailure,
  kind_of_itself: kindOfItself,
  lanes_conflict: lanesConflict,
  left_undone: leftUndone,
  limit_without_source: limitWithoutSource,
  limits_conflict: limitsConflict,
  looks_like_identifier: looksLikeIdentifier,
  merge_marker: mergeMarker,
  misplaced_line: misplacedLine,
  missing_file: missingFile,
  missing_head: missingHead,
  missing_slot: missingSlot,
  negative_time: negativeTime,
  never_used: neverUsed,
  no_open_day: noOpenDay,
  not_judged: notJudged,
  not_listed: notListed,
  number_too_large: numberTooLarge,
  option_missing: optionMissing,
  option_too_wide: optionTooWide,
  option_unknown: optionUnknown,
  option_unreachable: optionUnreachable,
  outlasts_state: outlastsState,
  outside_plausible: outsidePlausible,
  over_used: overUsed,
  pause_in_lane: pauseInLane,
  procedure_in_itself: procedureInItself,
  property_not_declared: propertyNotDeclared,
  repeat_count: repeatCount,
  repeat_without_limit: repeatWithoutLimit,
  repeated_step: repeatedStep,
  reversed_range: reversedRange,
  review_date: reviewDate,
  review_not_dated: reviewNotDated,
  review_overdue: reviewOverdue,
  role_in_two_lanes: roleInTwoLanes,
  role_may_not: roleMayNot,
  role_not_in_team: roleNotInTeam,
  rule_broken: ruleBroken,
  rule_incomplete: ruleIncomplete,
  rule_loosened: ruleLoosened,
  rule_order_broken: ruleOrderBroken,
  rule_replaced_twice: ruleReplacedTwice,
  rule_time_broken: ruleTimeBroken,
  rules_in_ring: rulesInRing,
  stray_close: strayClose,
  time_not_stated: timeNotStated,
  time_outside_action: timeOutsideAction,
  too_deep: tooDeep,
  too_few_hands: tooFewHands,
  total_broken: totalBroken,
  unclosed_block: unclosedBlock,
  unclosed_text: unclosedText,
  undecided: undecidedNeed,
  unknown_action: unknownAction,
  unknown_kind: unknownKind,
  unknown_name: unknownName,
  unknown_property: unknownProperty,
  unknown_state: unknownState,
  unknown_unit: unknownUnit,
  unmet_need: unmetNeed,
  unreachable_step: unreachableStep,
  unreadable_line: unreadableLine,
  unusable_file: unusableFile,
  unused_use: unusedUse,
  use_cycle: useCycle,
  use_outside: useOutside,
  usual_as_range: usualAsRange,
  usual_outside_range: usualOutsideRange,
  value_outside_set: valueOutsideSet,
  verify_without_otherwise: verifyWithoutOtherwise,
  wait_for_range: waitForRange,
  wait_in_vain: waitInVain,
  wrong_kind: wrongKind,
  wrong_measure: wrongMeasure,
  wrong_state: wrongState,
  wrong_value: wrongValue,
  wrong_word: wrongWord,
  zero_time: zeroTime,
};
