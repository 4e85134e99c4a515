/**
 * The open pot: water and grain over a flame. Heats, boils at the local boiling point, gives off what the
 * heat evaporates, and foams when starch is loose and the flame is high. Water and energy are kept in a
 * ledger, as in the cooker.
 */
import { latentKJKg } from './vessel.ts';

const WATER_CP = 4.19;
/** Metal of a 10 L pot and dry grain, kJ/K and kJ/(kg K). */
const METAL_KJK = 1;
const GRAIN_CP = 1.6;
/** An open pot loses by its walls and its surface, W/K (estimate). */
const LOSS_WK = 4;
/** Foam: rises with a boil harder than this (g/min given off), falls again under it; a hard boil throws it up faster. */
const FOAM_FROM_G_MIN = 3;
const FOAM_RISES_S = 240;
const HARD_G_MIN = 9;
const HARDEST = 2;
const FOAM_FALLS_S = 60;
/** Share of the water that goes over the rim with the foam. */
const BOILS_OVER = 0.06;

export interface Pot {
  readonly boilC: number;
  readonly roomC: number;
  readonly dryKg: number;
  readonly starchy: boolean;
  celsius: number;
  /** Free water, and water inside the kernels, kg. */
  waterKg: number;
  innerKg: number;
  steamGMin: number;
  /** 0 none, 1 over the rim. */
  foam: number;
  boiledOver: number;
  readonly ledger: { heat: number; loss: number; carried: number; boiledKg: number; spiltKg: number };
}

export interface PotFilling {
  readonly boilC: number;
  readonly roomC: number;
  readonly dryKg: number;
  readonly innerKg: number;
  readonly waterKg: number;
  readonly starchy: boolean;
}

export const fillPot = (filling: PotFilling): Pot => ({
  ...filling,
  celsius: filling.roomC,
  steamGMin: 0,
  foam: 0,
  boiledOver: 0,
  ledger: { heat: 0, loss: 0, carried: 0, boiledKg: 0, spiltKg: 0 },
});

export const potCapacityKJK = ({ dryKg, waterKg, innerKg }: Pot): number =>
  METAL_KJK + dryKg * GRAIN_CP + (waterKg + innerKg) * WATER_CP;

/** Kernels take up water that lay around them. */
export function takeUp(pot: Pot, kg: number): void {
  const taken = Math.min(kg, pot.waterKg);
  pot.waterKg -= taken;
  pot.innerKg += taken;
}

/** One second over a flame of so many watts. */
export function stepPot(pot: Pot, powerW: number): void {
  const { ledger } = pot;
  const heat = powerW / 1000;
  const loss = (LOSS_WK * (pot.celsius - pot.roomC)) / 1000;
  const capacity = potCapacityKJK(pot);
  const warm = pot.celsius + (heat - loss) / capacity;
  const excess = Math.max(0, warm - pot.boilC) * capacity;
  const perKg = latentKJKg(pot.boilC);
  const boiled = Math.min(pot.waterKg, excess / perKg);
  const carried = boiled * (perKg + WATER_CP * pot.boilC);
  pot.waterKg -= boiled;
  // A pot that has boiled dry gets hotter than any water.
  pot.celsius = excess > 0 ? (capacity * warm - carried) / (capacity - boiled * WATER_CP) : warm;
  pot.steamGMin = boiled * 60_000;
  ledger.heat += heat;
  ledger.loss += loss;
  ledger.carried += carried;
  ledger.boiledKg += boiled;
  if (pot.starchy) foamOn(pot);
}

/** How much of a simmer it is: 0 until 6 K under the boiling point, 1 from 1 K under it. */
export const simmering = ({ celsius, boilC }: Pot): number =>
  Math.min(1, Math.max(0, (celsius - (boilC - 6)) / 5));

function foamOn(pot: Pot): void {
  const boils = Math.min(HARDEST, Math.max(1, pot.steamGMin / HARD_G_MIN));
  const rises = pot.steamGMin > FOAM_FROM_G_MIN ? boils / FOAM_RISES_S : -1 / FOAM_FALLS_S;
  pot.foam = Math.max(0, pot.foam + rises);
  if (pot.foam < 1) return;
  const spilt = pot.waterKg * BOILS_OVER;
  pot.waterKg -= spilt;
  pot.ledger.spiltKg += spilt;
  pot.ledger.carried += spilt * WATER_CP * pot.celsius;
  pot.boiledOver += 1;
  pot.foam = 0.6;
}

/** Water in the pot and out of it must stay what was poured in, kg. */
export const potWaterKg = ({ waterKg, innerKg, ledger }: Pot): number =>
  waterKg + innerKg + ledger.boiledKg + ledger.spiltKg;
/** Heat held, kJ above 0 C. */
export const potKJ = (pot: Pot): number => potCapacityKJK(pot) * pot.celsius;
