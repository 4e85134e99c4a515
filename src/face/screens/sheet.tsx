/** Before a run: what this batch will take, at a glance. */
import { Box } from 'ink';
import { useMemo } from 'react';
import {
  formatDuration,
  formatMass,
  formatPressure,
  formatTemperature,
  formatVolume,
} from '../../core/quantity-format.ts';
import { runNumbers } from '../../core/plan/run-numbers.ts';
import { stepsOf } from '../../core/batch/steps.ts';
import type { Recipe } from '../../core/recipe/recipe.ts';
import type { Services } from '../../core/services.ts';
import { visible } from '../../core/text.ts';
import { whenText } from '../format.ts';
import type { KeyName } from '../keys.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { span } from '../spans.ts';
import { useKeys } from '../use-keys.ts';
import { Frame } from '../widgets/frame.tsx';
import { InkText, SpanLine } from '../widgets/ink-text.tsx';

export interface SheetScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly services: Services;
  readonly recipe: Recipe;
  readonly onStart: () => void;
  readonly onBack: () => void;
}

function sheetLines(recipe: Recipe, services: Services): readonly (readonly [string, string])[] {
  const { kitchen, assumed } = services.kitchen();
  const { units } = kitchen;
  const numbers = runNumbers(recipe, kitchen);
  const { containers } = recipe;
  const now = services.now();
  let clock = now;
  const ends = new Map<string, number>();
  for (const step of stepsOf(recipe)) {
    clock += (numbers.lengths[step]?.likelyS ?? 0) * 1000;
    ends.set(step, clock);
  }
  const at = (step: string): string => whenText(ends.get(step) ?? clock, now);
  const mark = (key: 'altitudeM' | 'minimumWaterL'): string => (assumed.has(key) ? ', assumed' : '');
  return [
    [
      'dry grain',
      `${formatMass(numbers.dryKg, units)} of ${recipe.grain}, in ${formatVolume(numbers.simmerWaterL, units)} of water`,
    ],
    [
      'hydrated',
      `${formatMass(numbers.hydratedKg, units)} in ${containers.count} ${containers.kind}s of ${formatMass(containers.fillKg, units)}`,
    ],
    ['cooker loads', numbers.loads.map(count => `${count} ${containers.kind}s`).join(' + ')],
    [
      'cooker water',
      `${formatVolume(numbers.cookerWaterL, units)} (at least ${formatVolume(numbers.leastWaterL, units)}${mark('minimumWaterL')})`,
    ],
    [
      'gauge here',
      `${formatPressure(numbers.targetKPa, units)}: ${formatTemperature(numbers.targetC, units, 1)} in pure steam${mark('altitudeM')}`,
    ],
    ['vent, hold', `${formatDuration(numbers.ventS)}, then ${formatDuration(numbers.holdS)}`],
    [
      'locked',
      `${formatDuration(numbers.pressureLockS)} for pressure, ${formatDuration(numbers.coolS)} in all`,
    ],
    ['simmer until', at('simmer')],
    ['heat off', at('heat-off')],
    ['open', at('cool')],
    ['done', at('inoculate')],
  ];
}

export const SheetScreen = ({ look, regions, services, recipe, onStart, onBack }: SheetScreenProps) => {
  const lines = useMemo(() => sheetLines(recipe, services), [recipe, services]);
  useKeys(
    (key: KeyName) => {
      if (key === 'space' || key === 'enter') onStart();
      else if (key === 'esc' || key === 'q' || key === 'ctrl-c') onBack();
    },
    false,
    services.steady,
  );
  return (
    <Frame
      look={look}
      regions={regions}
      left={visible(recipe.name)}
      right="before the run"
      marks={services.marks}
      notice={null}
      answers={[{ shown: 'Space', says: 'begin this batch' }]}
      tools={[{ shown: 'Esc', says: 'back' }]}
    >
      {lines.slice(0, regions.body.height - 1).map(([name, value]) => (
        <SpanLine
          key={name}
          look={look}
          spans={[span(`${name.padStart(14)}  `, 'faint'), span(value, 'strong')]}
        />
      ))}
      <Box flexGrow={1} />
      <InkText look={look} ink="faint">
        {visible(recipe.note)}
      </InkText>
    </Frame>
  );
};
