import { expect, it } from 'vitest';
import { choicesOf } from '../../src/core/batch/steps.ts';
import { withDefaults } from '../../src/core/kitchen.ts';
import { tellingOf } from '../../src/face/format.ts';
import { COMPACT } from '../../src/face/pictures/frame.ts';
import { picturesOf } from '../../src/face/run-view.ts';
import { captionOf } from '../../src/face/widgets/choice-row.tsx';
import { practiceOf } from '../help/practice-kit.ts';

const PICTURED = [
  'kernel-centre',
  'burst',
  'towel',
  'steam',
  'climbing',
  'holding',
  'pin',
  'lifted',
  'warmth',
] as const;

it('says under every small picture what it shows in whole words, with a dial and with a weight', () => {
  const { units } = withDefaults({}).kitchen;
  for (const gauge of ['dial', 'weight'] as const) {
    const { batch } = practiceOf(1, []).run;
    const kitchen = { ...batch.header.kitchen, gauge };
    for (const ask of PICTURED) {
      const asked = { ...batch, ask, header: { ...batch.header, kitchen } };
      const pictures = picturesOf(asked, tellingOf(asked, units));
      expect(pictures.length, ask).toBeGreaterThan(1);
      expect(pictures.length, ask).toBeLessThanOrEqual(choicesOf(ask).length);
      const captions = pictures.map(one => captionOf(one, COMPACT.width + 2));
      for (const [index, one] of pictures.entries())
        expect([one.says, one.brief], `${ask} ${gauge}`).toContain(captions[index]);
      expect(new Set(captions).size, ask).toBe(captions.length);
    }
  }
});
