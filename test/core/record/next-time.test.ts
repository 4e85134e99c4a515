import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { indexDiary } from '../../../src/core/record/bags.ts';
import type { DiaryEvent } from '../../../src/core/record/diary.ts';
import { changedAfter, improvedRecipe, MOST_CHANGES, nextTime } from '../../../src/core/record/next-time.ts';
import { STEP_IDS } from '../../../src/core/batch/steps.ts';
import { recordedBatch } from '../../../src/core/record/record.ts';
import { parseRecipe } from '../../../src/core/recipe/parse.ts';
import { recipeToYaml } from '../../../src/core/recipe/write.ts';
import { planOf } from '../../../src/core/plan/plan.ts';
import { METRIC } from '../../../src/core/quantity-format.ts';
import { HOUR, MINUTE } from '../../../src/core/time.ts';
import {
  changeEvidence,
  carriedAt,
  carriedLines,
  carriedNote,
  changeReason,
  changeWords,
  proposalWords,
  readCarried,
  remindersWords,
  unchangedWords,
} from '../../../src/core/words/next-time.ts';
import type { Drive } from '../../help/batch-drive.ts';
import type { Sample } from '../../help/batch-kit.ts';
import { someBatch, someDiary } from '../../help/record-history.ts';
import { dipped, lost, recordedWith, steamStopped, wet } from '../../help/recorded.ts';

describe('next time', () => {
  it('a batch that went well is done the same way again', () => {
    expect(nextTime(recordedWith(() => undefined))).toEqual([]);
  });

  it('each trouble brings its change, with its reason', () => {
    const ids = (trouble: (drive: Drive) => void, events: readonly DiaryEvent[] = [], sample: Sample = {}) =>
      nextTime(recordedWith(trouble, events, sample)).map(({ id }) => id);
    expect(ids(steamStopped)).toEqual(['vent-longer']);
    expect(ids(dipped)).toEqual(['watch-gauge']);
    const driedAndDipped = (drive: Drive) => {
      drive.to('surface-dry').wait(2 * HOUR);
      dipped(drive);
    };
    expect(ids(driedAndDipped, lost('sour', 1))).toEqual(['hold-longer']);
    expect(ids(dipped, [], { dips: 'make up' })).toEqual(['dips-restart']);
    expect(ids(wet)).toEqual(['dry-longer']);
    expect(ids(drive => drive.toAsk('lifted').answer('torn'))).toEqual(['cool-longer']);
    expect(ids(drive => drive.toAsk('burst').answer('many'))).toEqual(['look-sooner']);
    expect(ids(drive => drive.toAsk('fill').answer('as-planned').answer('used-up'))).toEqual(['fewer']);
  });

  it('many lost without a cause ask for a longer hold, one lost asks for nothing', () => {
    expect(
      nextTime(recordedWith(() => undefined, lost('black', 1, 2))).map(({ id, cause }) => [id, cause]),
    ).toEqual([['hold-longer', null]]);
    expect(nextTime(recordedWith(() => undefined, lost('black', 1)))).toEqual([]);
  });

  it('what befell another bag does not lead the answers to a loss, and is told of bags', () => {
    const recorded = recordedWith(
      drive => {
        dipped(drive);
        drive.toAsk('lifted').answer('torn');
      },
      lost('green', 2),
    );
    const changes = nextTime(recorded);
    expect(changes.map(({ cause }) => cause?.id)).toEqual(['dips', 'torn']);
    expect(changes.map(change => changeEvidence(change, METRIC))[1]).toBe('One bag was torn.');
  });

  it('a change that turns back the one before says so', () => {
    const tooDry = (drive: Drive) => drive.toAsk('towel').wait(MINUTE).answer('dry');
    const first = recordedWith(wet);
    const [longer] = nextTime(first);
    const recipe = improvedRecipe(first, longer ? [longer] : []);
    expect([longer?.id, changedAfter(recipe)]).toEqual(['dry-longer', '2613a']);
    const second = recordedWith(tooDry);
    const header = { ...second.batch.header, id: '2614a', recipe };
    const later = { ...second, id: '2614a', batch: { ...second.batch, header } };
    const [shorter] = nextTime(later, first);
    expect(shorter?.id).toBe('dry-shorter');
    expect(shorter && changeEvidence(shorter, METRIC)).toContain(
      'After 2613a this was changed the other way',
    );
    const [alone] = nextTime(second);
    expect(alone && changeEvidence(alone, METRIC)).not.toContain('other way');
  });

  it('never more than three, the weightiest first', () => {
    const recorded = recordedWith(
      drive => {
        drive.toAsk('burst').answer('many');
        wet(drive);
        steamStopped(drive);
        dipped(drive);
        drive.toAsk('lifted').answer('torn');
      },
      lost('sour', 2, 3),
    );
    const changes = nextTime(recorded);
    expect(changes).toHaveLength(MOST_CHANGES);
    expect(changes[0]?.id).toBe('dry-longer');
    for (const change of changes) {
      expect(changeReason(change)).toMatch(/^[A-Z].*\.$/);
      expect(changeEvidence(change, METRIC)).toMatch(/^[A-Z].*\.$/);
    }
  });

  it('kernels that burst while others were white inside ask for neither sooner nor later', () => {
    const uneven = (drive: Drive) =>
      drive.toAsk('kernel-centre').answer('white-core').toAsk('burst').answer('many');
    expect(nextTime(recordedWith(uneven)).map(({ id }) => id)).toEqual(['simmer-gently']);
    expect(nextTime(recordedWith(uneven, [], { soak: true })).map(({ id }) => id)).toEqual(['soak-longer']);
  });

  it('grain that was wet and then too dry asks for neither more nor less drying', () => {
    const both = (drive: Drive) => {
      wet(drive);
      drive.toAsk('towel').wait(MINUTE).answer('dry');
    };
    expect(nextTime(recordedWith(both)).map(({ id }) => id)).toEqual(['stir-oftener']);
  });

  it('a change never goes against its name, however far the recipe went already', () => {
    const recorded = recordedWith(
      drive => {
        steamStopped(drive);
        drive
          .to('hold')
          .wait(20 * MINUTE)
          .answer('below')
          .answer('at');
        drive.toAsk('lifted').answer('torn');
      },
      lost('green', 2, 3),
    );
    const { recipe } = recorded.batch.header;
    const far = {
      ...recorded,
      batch: {
        ...recorded.batch,
        header: {
          ...recorded.batch.header,
          recipe: { ...recipe, ventS: 30 * 60, holdS: 5 * 3600, coolS: 16 * 3600 },
        },
      },
    };
    expect(nextTime(far).map(({ id }) => id)).toEqual(['watch-gauge']);
  });

  it('more cooker water is poured by the next plan, not only written in a note', () => {
    const recorded = recordedWith(drive =>
      drive
        .to('hold')
        .wait(20 * MINUTE)
        .trouble('water-low'),
    );
    const change = nextTime(recorded).find(({ id }) => id === 'more-water');
    const poured = recorded.batch.cookerWaterL ?? 0;
    expect(change?.after).toBeCloseTo(poured + 0.5, 9);
    expect(change && remindersWords([change])).toBe('');
    expect(change && proposalWords(change, METRIC)).not.toContain('reminder');
    const better = improvedRecipe(recorded, change ? [change] : []);
    expect(better.note).not.toContain('Next time');
    const read = parseRecipe(recipeToYaml(better, METRIC), 'better.yaml');
    if (!read.ok) throw new Error('The changed recipe cannot be read back.');
    const { kitchen } = recorded.batch.header;
    const { numbers } = planOf(read.recipe, { kitchen, assumed: new Set() });
    expect(numbers.cookerWaterL).toBeCloseTo(poured + 0.5, 9);
  });

  it('what no number of the recipe says goes into its note, once', () => {
    const recorded = recordedWith(drive =>
      drive
        .to('hold')
        .wait(20 * MINUTE)
        .trouble('valve-opened'),
    );
    const changes = nextTime(recorded);
    expect(changes.map(({ id }) => id)).toEqual(['leave-valve']);
    expect(changes.map(change => proposalWords(change, METRIC))[0]).toMatch(/come off\. \[a reminder\]$/);
    expect(remindersWords(changes)).toBe(
      ' No. 1 is a reminder: it comes back at the first step, and at the one it is about.',
    );
    const recipe = improvedRecipe(recorded, changes);
    expect(recipe.note).toBe(
      'Next time (climb, hold, cool): Leave the valve alone from the end of the vent until the lid is allowed to come off.',
    );
    const again = {
      ...recorded,
      batch: { ...recorded.batch, header: { ...recorded.batch.header, recipe } },
    };
    expect(improvedRecipe(again, nextTime(again)).note).toBe(recipe.note);
    expect(carriedLines(`Rinse well.\n${recipe.note}`)).toEqual([
      'Leave the valve alone from the end of the vent until the lid is allowed to come off.',
    ]);
  });

  it('a reminder names its steps, and one that was written before that stands in no step', () => {
    const note =
      'Rinse.\nNext time: Pour more.\nNext time (hold, cool): Leave the valve.\nNext time (moon): Sing.';
    expect(carriedLines(note)).toEqual(['Pour more.', 'Leave the valve.', 'Sing.']);
    expect(carriedAt(note, 'hold')).toEqual(['Leave the valve.']);
    expect(carriedAt(note, 'cool')).toEqual(['Leave the valve.']);
    expect(STEP_IDS.filter(step => carriedAt(note, step).length > 0)).toEqual(['hold', 'cool']);
    for (const line of ['Next time: Pour more.', 'Next time (hold, cool): Leave the valve.']) {
      const carried = readCarried(line);
      expect(carried && carriedNote(carried)).toBe(line);
    }
    expect(readCarried('What to do next time: rest.')).toBeNull();
  });

  it('every reminder is about a step that its recipe walks, and is said again under its step once only', () => {
    const says = 'Keep the gauge a little above target, and look every five minutes until it stands still.';
    const recorded = recordedWith(dipped);
    const old = { ...recorded.batch.header.recipe, note: `Next time: ${says}` };
    const before = {
      ...recorded,
      batch: { ...recorded.batch, header: { ...recorded.batch.header, recipe: old } },
    };
    const [change] = nextTime(before);
    expect(change).toMatchObject({ id: 'watch-gauge', apply: null, remindAt: ['climb', 'hold'] });
    expect(improvedRecipe(before, nextTime(before)).note).toBe(`Next time (climb, hold): ${says}`);
  });

  it('kernels that burst between two looks are looked at more often, in numbers, before a gentler simmer', () => {
    const soon = (everyS: number) => {
      const recorded = recordedWith(drive => drive.toAsk('burst').answer('many'));
      const { recipe } = recorded.batch.header;
      const hasty = { ...recipe, simmer: { firstLookS: 300, everyS, nearS: 120, waterPerKg: 2.5 } };
      const header = { ...recorded.batch.header, recipe: hasty };
      return { ...recorded, batch: { ...recorded.batch, header } };
    };
    const [change] = nextTime(soon(300));
    expect(change && changeWords(change, METRIC)).toBe('Cut kernels every 3 min instead of 5 min.');
    expect(improvedRecipe(soon(300), change ? [change] : []).simmer).toMatchObject({
      everyS: 180,
      nearS: 120,
    });
    expect(nextTime(soon(120)).map(({ id, remindAt }) => [id, remindAt])).toEqual([
      ['simmer-gently', ['simmer']],
    ]);
  });

  it('nothing to change is said by what is known: all well, too soon, or lost without a cause', () => {
    const said = (...events: readonly DiaryEvent[]) =>
      unchangedWords(recordedWith(() => undefined, events).bags);
    const done = [1, 2, 3].map(
      number => ({ type: 'state', bag: `2613a-${number}`, state: 'done', looks: null }) as const,
    );
    expect(said()).toContain('still growing');
    expect(said(...done)).toContain('do it again the same way');
    expect(said(...done, ...lost('green', 1))).toContain('think of the culture, the room air');
  });

  it('a longer hold is told by its step, since the plan adds the altitude to the recipe', () => {
    const [change] = nextTime(recordedWith(dipped, lost('sour', 1)));
    // The sample recipe holds 90 min; a quarter of an hour more are 105.
    expect(change && changeWords(change, METRIC)).toBe(
      'Hold 15 min longer: 105 min in the recipe instead of 90 min.',
    );
  });

  it('whatever happened, the changed recipe is a sound recipe and only its changes differ', () => {
    let changed = 0;
    fc.assert(
      fc.property(someBatch('2613a'), someDiary('2613a'), (driven, entries) => {
        const recorded = recordedBatch(driven.batch, indexDiary(entries));
        const changes = nextTime(recorded);
        expect(changes.length).toBeLessThanOrEqual(MOST_CHANGES);
        expect(new Set(changes.map(({ topic }) => topic)).size).toBe(changes.length);
        for (const change of changes) {
          // A number has no need of a reminder, and a reminder without a step would only stand at the first.
          expect(change.remindAt.length > 0).toBe(change.apply === null);
          const said = `${changeWords(change, METRIC)} ${changeReason(change)} ${changeEvidence(change, METRIC)}`;
          expect(said).not.toMatch(/NaN|undefined|Infinity/);
        }
        const recipe = improvedRecipe(recorded, changes);
        const read = parseRecipe(recipeToYaml(recipe, METRIC), 'next.yaml');
        expect(read.ok && read.recipe).toEqual(recipe);
        if (changes.length > 0) changed += 1;
      }),
      { numRuns: 250 },
    );
    expect(changed).toBeGreaterThan(50);
  });

  it('a name does not grow with every round', () => {
    const recorded = recordedWith(steamStopped);
    const once = improvedRecipe(recorded, nextTime(recorded));
    const again = {
      ...recorded,
      batch: { ...recorded.batch, header: { ...recorded.batch.header, recipe: once } },
    };
    expect(improvedRecipe(again, []).name).toBe(once.name);
  });
});
