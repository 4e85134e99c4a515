/** What the keys do while a panel lies over the run. */
import { openAsk } from '../core/batch/lockout.ts';
import type { Batch } from '../core/batch/state.ts';
import { choicesOf } from '../core/batch/steps.ts';
import { runHelp } from './help-lines.ts';
import type { Regions } from './regions.ts';
import { endingsOf, type Panel } from './run-keys.ts';
import { causesOn, type TroublePage, troublesOn } from './trouble-list.ts';
import type { KeyLabel } from './widgets/frame.tsx';

const upTo = (count: number): string => (count > 1 ? `1-${count}` : '1');

/** The fourth key of a list of several pages: on, and from the last page to the first. */
const onward = ({ more, at, of }: TroublePage<unknown>): readonly KeyLabel[] =>
  more ? [{ shown: '4', says: at < of ? 'more of them' : 'from the beginning' }] : [];

/** The key line of a panel, no longer than what it lists. */
export function panelKeys(panel: Panel, batch: Batch, regions: Regions): readonly KeyLabel[] {
  switch (panel.kind) {
    case 'sure':
      return [
        { shown: '1', says: 'so much, yes' },
        { shown: 'any other key', says: 'change it' },
      ];
    case 'amount':
    case 'measure':
      return [
        { shown: '↑↓', says: 'finely' },
        { shown: '←→', says: 'coarsely' },
        { shown: '0-9', says: 'type' },
        { shown: 'Enter', says: 'take it' },
      ];
    case 'trouble': {
      const page = troublesOn(batch, panel.page);
      const { entries } = page;
      return [
        ...(entries.length > 0 ? [{ shown: upTo(entries.length), says: 'that one' }] : []),
        ...onward(page),
        { shown: 'e', says: 'end something early' },
      ];
    }
    case 'causes': {
      const page = causesOn(panel.of, panel.page);
      return [
        { shown: upTo(page.entries.length), says: 'that one' },
        ...onward(page),
        { shown: 'e', says: 'end something early' },
      ];
    }
    case 'where':
      return [{ shown: '1 2', says: 'there' }];
    case 'numbers':
      return [
        { shown: 'n', says: 'next page' },
        { shown: 'any other key', says: 'back' },
      ];
    case 'pictures': {
      const numbered = choicesOf(openAsk(batch)).filter(({ key }) => key !== 'space').length;
      return numbered === 0
        ? [{ shown: 'any key', says: 'back' }]
        : [
            { shown: upTo(numbered), says: 'that one' },
            { shown: 'any other key', says: 'back' },
          ];
    }
    case 'ending':
      return [{ shown: upTo(endingsOf(batch).length), says: 'that one' }];
    case 'word':
    case 'ends':
      return [{ shown: 'Enter', says: 'when the word stands there' }];
    case 'undo':
      return [
        { shown: '1', says: 'take it back' },
        { shown: 'any other key', says: 'no' },
      ];
    case 'help':
      return runHelp(batch, regions, 0).of > 1
        ? [
            { shown: '?', says: 'next page' },
            { shown: 'any other key', says: 'back' },
          ]
        : [{ shown: 'any key', says: 'back' }];
    case 'wipe':
      return [{ shown: 'w Enter', says: 'unlock' }];
    case 'leave':
      return [
        { shown: 'q', says: 'leave' },
        { shown: 'any other key', says: 'stay' },
      ];
    default:
      return [{ shown: 'any key', says: 'back' }];
  }
}
