/**
 * How long the plan sheet takes after a key: the whole plan, its clock times, and what stands on the screen.
 * Run with `node test/bench/plan.ts`. The aim is 20 ms for all of it, so that what-if feels immediate; every
 * key changes the bag, so that no body is remembered from the key before.
 */
import { readFileSync } from 'node:fs';
import { withDefaults } from '../../src/core/kitchen.ts';
import { whatIfOf } from '../../src/core/plan/what-if.ts';
import { parseRecipe } from '../../src/core/recipe/parse.ts';
import type { Recipe } from '../../src/core/recipe/recipe.ts';
import { lookFor } from '../../src/face/look.ts';
import { firstPage } from '../../src/face/sheet-first.ts';
import { sheetPlot } from '../../src/face/sheet-plot.ts';
import { type Aim, sheetView, type SheetView } from '../../src/face/sheet-view.ts';

export interface PlanFigure {
  readonly name: string;
  readonly ms: number;
  readonly aimMs: number;
}

const WARM_UP = 20;
const REPEATS = 101;
const AIM_MS = 20;
const NOW = Date.UTC(2026, 10, 25, 17, 30);

function shipped(name: string): Recipe {
  const text = readFileSync(new URL(`../../recipes/${name}.yaml`, import.meta.url), 'utf8');
  const parsed = parseRecipe(text, name);
  if (!parsed.ok) throw new Error(`${name} cannot be read`);
  return parsed.recipe;
}

function medianMs(pass: (index: number) => void): number {
  const times: number[] = [];
  for (let i = 0; i < WARM_UP + REPEATS; i += 1) {
    const begun = performance.now();
    pass(i);
    if (i >= WARM_UP) times.push(performance.now() - begun);
  }
  times.sort((a, b) => a - b);
  return times[times.length >> 1] as number;
}

export function planFigures(): readonly PlanFigure[] {
  const known = withDefaults({});
  const look = lookFor({ colour: 'none', ascii: false });
  const rye = shipped('rye-bags');
  const jars = shipped('sorghum-jars');
  const fills = (index: number) => 0.8 + ((index * 7) % 41) / 100;
  const view = (base: Recipe, index: number, aim: Aim = null): SheetView =>
    sheetView({ base, known, past: [], whatIf: { ...whatIfOf(base), fillKg: fills(index) }, aim, now: NOW });
  const figure = (name: string, pass: (index: number) => void): PlanFigure => ({
    name,
    ms: medianMs(pass),
    aimMs: AIM_MS,
  });
  return [
    figure('plan sheet, bags', index => view(rye, index)),
    figure('plan sheet, jars', index => view(jars, index)),
    figure('plan sheet, back from a time', index =>
      view(rye, index, { by: 'ready', at: NOW + 3 * 86_400_000 }),
    ),
    figure('plan sheet, altitude far away', index =>
      sheetView({
        base: rye,
        known,
        past: [],
        whatIf: { ...whatIfOf(rye), fillKg: fills(index), altitudeM: 2000 + index },
        aim: null,
        now: NOW,
      }),
    ),
    figure('plan sheet with its rows and plot, 160x50', index => {
      const shown = view(rye, index);
      firstPage(shown, { width: 78, height: 44, picked: 'fill' }, look);
      sheetPlot(shown.plan.hold, { width: 77, height: 18, ascii: false, units: known.kitchen.units });
    }),
  ];
}

if (import.meta.main) {
  console.log('name  figure  aim');
  for (const { name, ms, aimMs } of planFigures()) {
    console.log(`${name}  ${ms.toFixed(2)} ms  ${aimMs} ms`);
  }
}
