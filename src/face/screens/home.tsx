/** Home: the open batch first, then recipes; kitchen and past batches a key away. */
import { Box, Text } from 'ink';
import Spinner from 'ink-spinner';
import { useEffect, useMemo, useState } from 'react';
import { countOf } from '../../core/batch/countdown.ts';
import { endOf } from '../../core/batch/schedule.ts';
import type { Batch } from '../../core/batch/state.ts';
import { formatDuration, formatMass } from '../../core/quantity-format.ts';
import type { PracticeSubject, PracticeWish } from '../../core/practice/session.ts';
import type { BatchChoice, RecipeChoice, Services } from '../../core/services.ts';
import { visible } from '../../core/text.ts';
import { STEP_NAMES } from '../../core/words/steps.ts';
import { countText, minuteOfDay, wallOf, whenText } from '../format.ts';
import { actOf, barOf } from '../keymap.ts';
import type { KeyName } from '../keys.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { fitParts } from '../sheet-text.ts';
import { span } from '../spans.ts';
import { useKeys } from '../use-keys.ts';
import { Frame, type Notice } from '../widgets/frame.tsx';
import { InkText } from '../widgets/ink-text.tsx';
import { dueOf } from './due.tsx';
import type { RecordPlace } from './record-places.tsx';
import { wrapLines } from '../wrap.ts';
import { movePick, PickList, type PickLine } from '../widgets/pick-list.tsx';

export interface HomeScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly services: Services;
  readonly says: string | null;
  readonly onRecipe: (choice: RecipeChoice) => void;
  readonly onBatch: (id: string) => void;
  readonly onKitchen: () => void;
  readonly onBatches: () => void;
  readonly onAfter: (place: RecordPlace) => void;
  readonly onPractise?: (subject: PracticeSubject | null, wish: PracticeWish) => void;
  readonly onLeave: () => void;
}

const isOpen = (choice: BatchChoice): choice is BatchChoice & { batch: Batch } =>
  choice.batch !== null && choice.batch.finishedAt === null;

function openLine(
  { id, batch }: BatchChoice & { batch: Batch },
  { look, regions }: Pick<HomeScreenProps, 'look' | 'regions'>,
): PickLine {
  const count = countOf(batch);
  const left = count?.direction === 'down' ? `, last seen at ${countText(count.ms, 'down')}` : '';
  const end = whenText(wallOf(batch, endOf(batch, minuteOfDay)), batch.wall);
  const name = `${visible(batch.header.recipe.name)} · ${id}`;
  const room = regions.body.width - [...`› go on ${name}  `].length;
  const parts = [`${STEP_NAMES[batch.step]}${left}`, `done about ${end}`];
  return {
    id,
    spans: [
      span('go on ', 'watch'),
      span(name, 'strong'),
      span(`  ${fitParts(parts, Math.max(0, room), look)}`, 'faint'),
    ],
  };
}

/** `again` names the file too, where another recipe of the list has the same name. */
function recipeLine(choice: RecipeChoice, services: Services, again: boolean): PickLine {
  const { recipe, name } = choice;
  if (!recipe)
    return {
      id: name,
      spans: [span(visible(name), 'watch'), span('  cannot be read: Enter tells why', 'faint')],
    };
  const { count, kind, fillKg } = recipe.containers;
  const { units } = services.kitchen().kitchen;
  const text = `${count} ${kind}${count === 1 ? '' : 's'} of ${formatMass(fillKg, units)}, hold ${formatDuration(recipe.holdS)}`;
  return {
    id: name,
    spans: [
      span(visible(recipe.name), 'strong'),
      span(again ? ` [${visible(name)}]` : ''),
      span(`  ${text}${choice.own ? ' · yours' : ''}`, 'faint'),
    ],
  };
}

/** Offered at every start until it is taken or turned down, never forced: the key works ever after. */
function useLessonOffer({ practice }: Services, free: boolean): { says: string | null; answer: () => void } {
  const [offers, setOffers] = useState(() => free && practice?.offersLesson() === true);
  return {
    says: offers ? 'New here? l: a lesson of four minutes, simulated. x: no, thanks.' : null,
    answer: () => {
      if (offers) practice?.lessonAnswered();
      setOffers(false);
    },
  };
}

const TOOLS = barOf('home');
const RULES = "The maker's manual wins over the coach. Not a way to preserve food.";

export const HomeScreen = (props: HomeScreenProps) => {
  const { look, regions, services } = props;
  const [picked, setPicked] = useState(0);
  const [notice, setNotice] = useState<Notice | null>(null);
  // What went wrong is told here as well when it went wrong while home was before the eyes.
  useEffect(() => {
    if (props.says) setNotice({ text: props.says, ink: 'watch' });
  }, [props.says]);
  const open = useMemo(() => services.batches().filter(isOpen).reverse(), [services]);
  const [found, setFound] = useState<readonly RecipeChoice[] | null>(null);
  const recipes = found ?? [];
  useEffect(() => {
    let here = true;
    void services.recipes().then(all => here && setFound(all));
    return () => {
      here = false;
    };
  }, [services]);
  const [due, setDue] = useState(0);
  // After the first frame: the record is read for it.
  useEffect(() => {
    if (services.after) setDue(dueOf(services.after).length);
  }, [services]);
  const lesson = useLessonOffer(services, open.length === 0);
  const isDoubled = ({ name, recipe }: RecipeChoice): boolean =>
    recipes.some(other => other.name !== name && recipe !== null && other.recipe?.name === recipe.name);
  const lines = [
    ...open.map(choice => openLine(choice, props)),
    ...recipes.map(choice => recipeLine(choice, services, isDoubled(choice))),
  ];
  const choose = () => {
    const batch = open[picked];
    if (batch) return props.onBatch(batch.id);
    const choice = recipes[picked - open.length];
    if (!choice) return;
    if (choice.recipe) props.onRecipe(choice);
    else setNotice({ text: visible(choice.problems[0] ?? 'It cannot be read.'), ink: 'watch' });
  };
  const practisePicked = () => {
    const recipe = recipes[picked - open.length]?.recipe ?? recipes.find(choice => choice.recipe)?.recipe;
    props.onPractise?.(recipe ? { recipe } : null, {});
  };
  const press = (key: KeyName) => {
    setNotice(null);
    const { after } = services;
    const act = actOf('list', key) === 'open' ? 'open' : actOf('home', key);
    if (act === 'open') choose();
    else if (act === 'kitchen') props.onKitchen();
    else if (act === 'batches') props.onBatches();
    else if (act === 'due' && after) props.onAfter({ at: 'due' });
    else if (act === 'record' && after) props.onAfter({ at: 'record' });
    else if (act === 'practise') practisePicked();
    else if (act === 'lesson') {
      lesson.answer();
      props.onPractise?.(null, { lesson: true });
    } else if (act === 'no-lesson') lesson.answer();
    else if (act === 'leave') props.onLeave();
    // One Esc too many on the way back must not end the program and leave the next keys to the shell.
    else if (act === 'back') setNotice({ text: 'This is home. q leaves.', ink: 'faint' });
    else setPicked(movePick(picked, key, lines.length));
  };
  useKeys(press, false, services.steady, undefined, ['home', 'list', 'everywhere']);
  const rules = wrapLines(RULES, regions.body.width);
  return (
    <Frame
      look={look}
      regions={regions}
      left="Stovehand"
      right="grain spawn, one batch at a time"
      marks={services.marks}
      notice={notice}
      answers={[
        { shown: '↑↓', says: 'choose' },
        { shown: 'Enter', says: open[picked] ? 'go on with this batch' : 'plan this batch' },
      ]}
      tools={TOOLS}
    >
      <InkText look={look} ink="accent">
        {open.length > 0 ? 'A batch is under way' : 'What shall it be?'}
      </InkText>
      <InkText look={look} ink={due > 0 || lesson.says ? 'watch' : 'plain'}>
        {due === 0 ? (lesson.says ?? ' ') : `Bags want ${due === 1 ? 'one thing' : `${due} things`} today: d`}
      </InkText>
      <PickList look={look} lines={lines} picked={picked} height={regions.body.height - 3 - rules.length} />
      {found === null ? (
        <Text {...look.inks.faint}>
          <Spinner type={look.ascii ? 'line' : 'dots'} /> reading the recipes
        </Text>
      ) : null}
      <Box flexGrow={1} />
      {rules.map(line => (
        <InkText key={line} look={look} ink="faint">
          {line}
        </InkText>
      ))}
    </Frame>
  );
};
