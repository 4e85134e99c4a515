/** What answers about the cooker do, and what really was when they were given: steam, valve, hold, heat, lid. */
import { inLoad } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import { turn } from './burner.ts';
import { between, chance } from './chance.ts';
import { type Load, likelyCentreC, meanC, moveCentres } from './load.ts';
import { gaugeKPa, isDry } from './vessel.ts';
import { type World, airLeft, isJet, loadFacts } from './world.ts';

export function noteSteady(world: World, batch: Batch): void {
  const { vessel } = world;
  const facts = loadFacts(world);
  if (vessel === null || facts === undefined) return;
  facts.steadyT = batch.now;
  facts.steadyGMin = isJet(vessel) ? vessel.steamGS * 60 : 0;
  facts.steadyJetS = world.jetS;
}

export function shut(world: World, batch: Batch): void {
  const { vessel } = world;
  const facts = loadFacts(world);
  if (vessel === null || facts === undefined) return;
  facts.shutT = batch.now;
  facts.airLeft = airLeft(world);
  facts.jetS = world.jetS;
  vessel.open = false;
}

export function beginHold(world: World, batch: Batch): void {
  const { vessel, faults, seed, burner } = world;
  const facts = loadFacts(world);
  if (vessel === null || facts === undefined) return;
  if (facts.holdT === null) {
    if (faults.has('gas-out')) {
      burner.gasS = Math.min(burner.gasS, between(8, 20, chance(seed, 'bottle')) * 60);
    }
    if (faults.has('phone-call') && world.facts.away === null) {
      world.ringsAt = world.second + Math.round(between(20, 35, chance(seed, 'rings')) * 60);
    }
  }
  facts.holdT = batch.now;
  facts.holdGaugeKPa = gaugeKPa(vessel);
  facts.holdC = vessel.celsius;
}

const rises = (value: number, at: number, over: number): number => 1 / (1 + Math.exp((at - value) / over));

/**
 * Chance that a container tears when the lid comes off: hot grain boils when the pressure leaves it, and a
 * vacuum lets go at once. The project's own rule of thumb, no source.
 */
export function tearRisk(meanGrainC: number, gauge: number): number {
  const boils = 0.95 * rises(meanGrainC, 88, 4);
  const bursts = 0.5 * rises(Math.abs(gauge), 45, 7);
  return 1 - (1 - boils) * (1 - bursts);
}

/**
 * Slow cooling: the middle of a container is this much farther from the chamber than its mean, by the slowest
 * mode of conduction (a brick (pi/2)^3 = 3.9, a jar 3.6).
 */
const MIDDLE_OF_MEAN = 3.8;
const middleC = (load: Load, chamberC: number): number =>
  Math.min(likelyCentreC(load), chamberC + MIDDLE_OF_MEAN * Math.max(0, meanC(load) - chamberC));

export function openLid(world: World, batch: Batch): void {
  const { vessel, load, seed, faults } = world;
  const facts = loadFacts(world);
  if (vessel === null || load === null || facts === undefined) return;
  facts.openT = batch.now;
  facts.openGaugeKPa = gaugeKPa(vessel);
  facts.openMeanC = meanC(load);
  facts.tearRisk = tearRisk(facts.openMeanC, facts.openGaugeKPa);
  world.bagC = middleC(load, vessel.celsius);
  for (const { number } of inLoad(batch)) {
    if (chance(seed, 'tear', number) < facts.tearRisk) world.facts.torn.push(number);
  }
  const numbers = inLoad(batch).map(({ number }) => number);
  const one = numbers[Math.floor(chance(seed, 'torn bag') * numbers.length)];
  if (faults.has('torn-bag') && one !== undefined && !world.facts.torn.includes(one))
    world.facts.torn.push(one);
  world.vessel = null;
}

/** The heat goes off: what the hold was worth. */
export function heatOff(world: World, batch: Batch): void {
  const { vessel, load, burner } = world;
  turn(burner, 0);
  const facts = loadFacts(world);
  if (vessel === null || load === null || facts === undefined || facts.offT !== null) return;
  moveCentres(load, vessel.celsius, !isDry(vessel));
  const [low, likely, high] = load.centres;
  facts.offT = batch.now;
  facts.countedS = batch.hold.creditMs / 1000;
  facts.givenUpS = batch.hold.lostMs / 1000;
  facts.f0Min = [low.f0Min, likely.f0Min, high.f0Min];
  facts.logs = [low.logs, likely.logs, high.logs];
  facts.waterLeftL = isDry(vessel) ? 0 : vessel.liquidKg;
}
