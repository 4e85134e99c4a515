/** The plan sheet as plain text, 80 columns, for a terminal, a pipe or paper. */
import { formatAltitude } from '../core/quantity-format.ts';
import { visible } from '../core/text.ts';
import { costLines, shoppingText } from '../core/words/plan-lists.ts';
import { estimateText, planRows } from '../core/words/plan-rows.ts';
import { dateText } from '../face/format.ts';
import { lookFor } from '../face/look.ts';
import { warningsIn } from '../face/sheet-view.ts';
import { stepRows } from '../face/sheet-more.ts';
import { rowText } from '../face/spans.ts';
import { wrapLines } from '../face/wrap.ts';
import type { Planned } from './plan.ts';

const WIDTH = 80;
const LABEL = 12;
const VALUE = 14;

/** Text behind a mark, wrapped under itself. */
const hanging = (mark: string, text: string): string[] =>
  wrapLines(text, WIDTH - mark.length).map(
    (line, index) => (index === 0 ? mark : ' '.repeat(mark.length)) + line,
  );

/** First sentence: whether it works as it was asked for, and what must be read before it is believed. */
function headline({ view: { plan }, says, refused }: Planned): string {
  if (plan.verdict === 'no') return 'No: not like this. See what to change.';
  if (refused && says !== null) return says;
  return plan.warnings.some(({ weight }) => weight === 'watch')
    ? 'It can be done, but read what to look out for first.'
    : 'Go: this works here.';
}

/** The whole sheet, ending in a line feed. */
export function planText(planned: Planned): string {
  const { view, says, refused } = planned;
  const { plan, recipe } = view;
  const { kitchen } = plan;
  const { units } = kitchen;
  const lines: string[] = [visible(recipe.name)];
  const head = (text: string) => lines.push('', text);
  lines.push(...wrapLines(headline(planned), WIDTH));
  // A batch that cannot be made at all is not refused a second time for its hour.
  if (says !== null && !refused) lines.push(...wrapLines(says, WIDTH));

  head(
    `Sheet, for ${kitchen.stationKPa === null ? formatAltitude(kitchen.altitudeM, units) : `${kitchen.stationKPa.toFixed(1)} kPa of air`}`,
  );
  for (const { label, value, more, assumed } of planRows(plan)) {
    const mark = `  ${label.padEnd(LABEL)}${value.padEnd(VALUE)}${assumed ? '? ' : '  '}`;
    lines.push(...hanging(mark, more.join('; ')));
  }
  if (plan.assumed.size > 0) lines.push('  ? rests on kitchen values that are assumed: stovehand kitchen');

  head(`Times, beginning ${dateText(view.timeline.startsAt)}`);
  // Plain characters: a pipe or a printer may know no others.
  const look = lookFor({ colour: 'none', ascii: true });
  for (const row of stepRows(view, WIDTH - 2, Number.POSITIVE_INFINITY, look))
    lines.push(`  ${rowText(row).trimEnd()}`);

  head('Look out for');
  const warnings = warningsIn(view);
  if (warnings.length === 0) lines.push('  Nothing unusual.');
  for (const { what, why, change } of warnings) {
    lines.push(...hanging('  ! ', what), ...hanging('    why     ', why), ...hanging('    change  ', change));
  }

  head('To have in the house');
  for (const item of plan.shopping)
    lines.push(...hanging('  - ', visible(shoppingText(item, recipe, kitchen))));

  head('Cost');
  for (const line of costLines(plan.cost, recipe.containers.kind))
    lines.push(...hanging('  ', visible(line)));

  head('Estimates, never a proof that anything is sterile');
  for (const name of ['cautious', 'likely', 'fast'] as const) {
    const shown = plan.hold.source === 'yours' && name === 'likely' ? 'yours' : name;
    lines.push(...hanging('  - ', estimateText(shown, plan.hold[name], units)));
  }
  lines.push('', "The maker's manual, local rules and licensed practice decide.", '');
  return lines.join('\n');
}
