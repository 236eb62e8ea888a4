import type { Check } from './check.ts';
import { aerialAtPlateVoltage } from './checks/aerial-at-plate-voltage.ts';
import { ambiguousUnit } from './checks/ambiguous-unit.ts';
import { audioShunted } from './checks/audio-shunted.ts';
import { ballastDoesNotSuit } from './checks/ballast-does-not-suit.ts';
import { bandNotCovered } from './checks/band-not-covered.ts';
import { batteriesInParallel } from './checks/batteries-in-parallel.ts';
import { batteriesUnjoined } from './checks/batteries-unjoined.ts';
import { batteryDrain } from './checks/battery-drain.ts';
import { batteryReversed } from './checks/battery-reversed.ts';
import { batteryShorted } from './checks/battery-shorted.ts';
import { batteryTired } from './checks/battery-tired.ts';
import { biasOutOfStep } from './checks/bias-out-of-step.ts';
import { blocksOppose } from './checks/blocks-oppose.ts';
import { cBatteryIdle } from './checks/c-battery-idle.ts';
import { cathodeWithoutReturn } from './checks/cathode-without-return.ts';
import { condenserOverVoltage } from './checks/condenser-over-voltage.ts';
import { controlShortsBattery } from './checks/control-shorts-battery.ts';
import { crystalWithoutDcPath } from './checks/crystal-without-dc-path.ts';
import { dampedTank } from './checks/damped-tank.ts';
import { danglingEnd } from './checks/dangling-end.ts';
import { detectorOnAmplifierTap } from './checks/detector-on-amplifier-tap.ts';
import { detectorPlateUnbypassed } from './checks/detector-plate-unbypassed.ts';
import { dialShaftLive } from './checks/dial-shaft-live.ts';
import { dialsDisagree } from './checks/dials-disagree.ts';
import { drainWhenOff } from './checks/drain-when-off.ts';
import { duplicateName } from './checks/duplicate-name.ts';
import { earthsCollide } from './checks/earths-collide.ts';
import { electrolyticReversed } from './checks/electrolytic-reversed.ts';
import { filamentOpen } from './checks/filament-open.ts';
import { filamentOverVoltage } from './checks/filament-over-voltage.ts';
import { filamentUnderVoltage } from './checks/filament-under-voltage.ts';
import { foundDiffers } from './checks/found-differs.ts';
import { fuseGuardsNothing } from './checks/fuse-guards-nothing.ts';
import { gangShaftJoins } from './checks/gang-shaft-joins.ts';
import { gasTubeMisplaced } from './checks/gas-tube-misplaced.ts';
import { gridBiasedPositive } from './checks/grid-biased-positive.ts';
import { gridCondenserBypassed } from './checks/grid-condenser-bypassed.ts';
import { gridCondenserWithoutLeak } from './checks/grid-condenser-without-leak.ts';
import { gridRadioReturn } from './checks/grid-radio-return.ts';
import { gridReturnSide } from './checks/grid-return-side.ts';
import { gridReturnTooHigh } from './checks/grid-return-too-high.ts';
import { gridWithoutDcReturn } from './checks/grid-without-dc-return.ts';
import { hornPolarity } from './checks/horn-polarity.ts';
import { intermediatesDiffer } from './checks/intermediates-differ.ts';
import { isolatedParts } from './checks/isolated-parts.ts';
import { joinedTwice } from './checks/joined-twice.ts';
import { loadDoesNotSuit } from './checks/load-does-not-suit.ts';
import { lostInSomePosition } from './checks/lost-in-some-position.ts';
import { meterCannotTell } from './checks/meter-cannot-tell.ts';
import { missingUnit } from './checks/missing-unit.ts';
import { motorboats } from './checks/motorboats.ts';
import { neutralizerOutOfRange } from './checks/neutralizer-out-of-range.ts';
import { neutralizingSense } from './checks/neutralizing-sense.ts';
import { noRadioReturn } from './checks/no-radio-return.ts';
import { oscillatorMissesBand } from './checks/oscillator-misses-band.ts';
import { oscillatorSilent } from './checks/oscillator-silent.ts';
import { ownPattern } from './checks/own-pattern.ts';
import { ownTubeType } from './checks/own-tube-type.ts';
import { plateOverVoltage } from './checks/plate-over-voltage.ts';
import { plateStarved } from './checks/plate-starved.ts';
import { plateVoltageOnFilament } from './checks/plate-voltage-on-filament.ts';
import { plateVoltageOnGrid } from './checks/plate-voltage-on-grid.ts';
import { plateWithoutSupply } from './checks/plate-without-supply.ts';
import { pushPullInStep } from './checks/push-pull-in-step.ts';
import { radiates } from './checks/radiates.ts';
import { readingOutOfRange } from './checks/reading-out-of-range.ts';
import { readingsContradict } from './checks/readings-contradict.ts';
import { regenerationOutOfReach } from './checks/regeneration-out-of-reach.ts';
import { resistorOverDissipation } from './checks/resistor-over-dissipation.ts';
import { rheostatOverDissipation } from './checks/rheostat-over-dissipation.ts';
import { rheostatRange } from './checks/rheostat-range.ts';
import { rotorOnGridSide } from './checks/rotor-on-grid-side.ts';
import { screenAndGridSwapped } from './checks/screen-and-grid-swapped.ts';
import { screenNotBypassed } from './checks/screen-not-bypassed.ts';
import { screenWithoutSupply } from './checks/screen-without-supply.ts';
import { seriesStringUneven } from './checks/series-string-uneven.ts';
import { sharedSupplyPath } from './checks/shared-supply-path.ts';
import { shockHazard } from './checks/shock-hazard.ts';
import { shortedPart } from './checks/shorted-part.ts';
import { socketMirrored } from './checks/socket-mirrored.ts';
import { stageOscillates } from './checks/stage-oscillates.ts';
import { stepUpReversed } from './checks/step-up-reversed.ts';
import { tapName } from './checks/tap-name.ts';
import { ticklerBypassed } from './checks/tickler-bypassed.ts';
import { ticklerSense } from './checks/tickler-sense.ts';
import { transformerOverCurrent } from './checks/transformer-over-current.ts';
import { transformerUnloaded } from './checks/transformer-unloaded.ts';
import { tubeOutOverVoltage } from './checks/tube-out-over-voltage.ts';
import { tubeOverCurrent } from './checks/tube-over-current.ts';
import { unknownName } from './checks/unknown-name.ts';
import { unknownTubeType } from './checks/unknown-tube-type.ts';
import { unknownWord } from './checks/unknown-word.ts';
import { unlikelyValue } from './checks/unlikely-value.ts';
import { unreadableLine } from './checks/unreadable-line.ts';
import { unusedPost } from './checks/unused-post.ts';
import { unusedUse } from './checks/unused-use.ts';
import { usedFile } from './checks/used-file.ts';
import { vanesAcrossSupply } from './checks/vanes-across-supply.ts';
import { whichEnd } from './checks/which-end.ts';
import { wrongUnit } from './checks/wrong-unit.ts';

/** Every check there is, in the order of the documentation. */
export const allChecks: readonly Check[] = [
  // Reading the text
  ambiguousUnit,
  duplicateName,
  missingUnit,
  ownPattern,
  ownTubeType,
  unknownName,
  unknownTubeType,
  unknownWord,
  unlikelyValue,
  unreadableLine,
  unusedUse,
  usedFile,
  whichEnd,
  wrongUnit,
  // Wiring
  danglingEnd,
  gangShaftJoins,
  isolatedParts,
  joinedTwice,
  shortedPart,
  unusedPost,
  // DC returns
  cathodeWithoutReturn,
  crystalWithoutDcPath,
  filamentOpen,
  gridBiasedPositive,
  gridCondenserBypassed,
  gridReturnSide,
  gridReturnTooHigh,
  gridWithoutDcReturn,
  lostInSomePosition,
  plateVoltageOnGrid,
  plateWithoutSupply,
  screenAndGridSwapped,
  screenWithoutSupply,
  socketMirrored,
  // Batteries
  batteriesInParallel,
  batteriesUnjoined,
  batteryReversed,
  batteryShorted,
  blocksOppose,
  cBatteryIdle,
  controlShortsBattery,
  detectorOnAmplifierTap,
  drainWhenOff,
  earthsCollide,
  electrolyticReversed,
  plateVoltageOnFilament,
  tapName,
  vanesAcrossSupply,
  // Filaments and controls
  ballastDoesNotSuit,
  batteryDrain,
  filamentOverVoltage,
  filamentUnderVoltage,
  fuseGuardsNothing,
  rheostatRange,
  seriesStringUneven,
  tubeOutOverVoltage,
  // Radio frequency
  bandNotCovered,
  dampedTank,
  detectorPlateUnbypassed,
  dialsDisagree,
  gridCondenserWithoutLeak,
  gridRadioReturn,
  intermediatesDiffer,
  neutralizerOutOfRange,
  neutralizingSense,
  noRadioReturn,
  oscillatorMissesBand,
  oscillatorSilent,
  radiates,
  regenerationOutOfReach,
  rotorOnGridSide,
  screenNotBypassed,
  sharedSupplyPath,
  stageOscillates,
  ticklerBypassed,
  ticklerSense,
  // Audio and ratings
  audioShunted,
  biasOutOfStep,
  condenserOverVoltage,
  foundDiffers,
  gasTubeMisplaced,
  hornPolarity,
  loadDoesNotSuit,
  motorboats,
  plateOverVoltage,
  plateStarved,
  pushPullInStep,
  resistorOverDissipation,
  rheostatOverDissipation,
  stepUpReversed,
  transformerOverCurrent,
  transformerUnloaded,
  tubeOverCurrent,
  // The bench
  batteryTired,
  meterCannotTell,
  readingOutOfRange,
  readingsContradict,
  // Safety
  aerialAtPlateVoltage,
  dialShaftLive,
  shockHazard,
];
