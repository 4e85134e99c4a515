/** Before a run: the plan of this batch on one page, the rest a key away, and what-if by the arrows. */
import { Box } from 'ink';
import { useMemo, useState } from 'react';
import type { PracticeSubject } from '../../core/practice/session.ts';
import { pastSteps } from '../../core/plan/past-steps.ts';
import { stepWhatIf, WHAT_IF_LINES, whatIfOf } from '../../core/plan/what-if.ts';
import type { Recipe } from '../../core/recipe/recipe.ts';
import type { Services } from '../../core/services.ts';
import { visible } from '../../core/text.ts';
import { whenText } from '../format.ts';
import { actOf } from '../keymap.ts';
import type { KeyName } from '../keys.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { fullRows, TIME_LINES } from '../sheet-more.ts';
import { type Aim, halfHour, type SheetView, sheetView, timesOf, worthReading } from '../sheet-view.ts';
import { useKeys } from '../use-keys.ts';
import { Frame, type KeyLabel, type Notice } from '../widgets/frame.tsx';
import { movePick } from '../widgets/pick-list.tsx';
import { nextOver, type Over, OverPage } from './sheet-over.tsx';
import { FactsPage, FullPage, timePicks, TimesPage } from './sheet-pages.tsx';

export interface SheetScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly services: Services;
  readonly recipe: Recipe;
  /** Begins the batch with the values shown: the recipe as it was changed on the sheet. */
  readonly onStart: (recipe: Recipe) => void;
  /** Practises what is shown, in the kitchen that is shown. */
  readonly onPractise?: (subject: PracticeSubject) => void;
  readonly onBack: () => void;
}

const SAYS_NO = 'The plan says no: change something first, here or in the recipe or the kitchen.';
const PAGES = ['facts', 'times', 'full'] as const;
type Page = (typeof PAGES)[number];
const earlierSteps = (services: Services) =>
  pastSteps(services.batches().flatMap(({ batch }) => (batch === null ? [] : [batch])));

/** Another batch is open: this one would begin beside it, which is seldom meant. */
function underWay(services: Services): Notice | null {
  const open = services.batches().findLast(({ batch }) => batch !== null && batch.finishedAt === null);
  return open
    ? {
        text: `Batch ${open.id} is under way. Space begins another one beside it; home goes on with it.`,
        ink: 'watch',
      }
    : null;
}

export const SheetScreen = (props: SheetScreenProps) => {
  const { look, regions, services, recipe, onStart, onPractise, onBack } = props;
  const [known] = useState(() => services.kitchen());
  const [past] = useState(() => earlierSteps(services));
  const [whatIf, setWhatIf] = useState(() => whatIfOf(recipe));
  const [aim, setAim] = useState<Aim>(null);
  const [now, setNow] = useState(() => services.now());
  const [page, setPage] = useState<Page>('facts');
  const [picked, setPicked] = useState(0);
  const [scroll, setScroll] = useState(0);
  const [notice, setNotice] = useState<Notice | null>(() => underWay(services));
  const [over, setOver] = useState<Over | null>(null);
  /** The warnings that were read to their end. */
  const [read, setRead] = useState('');
  const view = useMemo(
    () => sheetView({ base: recipe, known, past, whatIf, aim, now }),
    [recipe, known, past, whatIf, aim, now],
  );
  const width = regions.columns - 2;
  const picks = page === 'facts' ? WHAT_IF_LINES.length : timePicks(view, width, regions.body.height, look);
  const fullCount = page === 'full' ? fullRows(view, width, look).length : 0;

  const body = { width, height: regions.body.height };
  const refused = view.plan.verdict === 'no';
  const unread = refused || worthReading(view) !== read;

  const begin = async () => {
    if (refused) {
      setNotice({ text: SAYS_NO, ink: 'danger' });
      return;
    }
    if (whatIf.altitudeM !== null) {
      const failed = await services.saveKitchen({ altitudeM: whatIf.altitudeM, stationKPa: null });
      if (failed !== null) {
        setNotice({ text: visible(failed), ink: 'danger' });
        return;
      }
    }
    onStart(view.recipe);
  };

  const start = () => (unread ? setOver({ kind: 'warned', from: 0 }) : void begin());

  const change = (by: 1 | -1) => {
    if (page === 'facts') {
      const line = WHAT_IF_LINES[picked];
      if (line !== undefined) setWhatIf(current => stepWhatIf(current, line, by, recipe, known));
      return;
    }
    if (page !== 'times') return;
    const next = movedAim(view, TIME_LINES[picked] ?? 'start', by);
    const starts = timesOf(view.plan, next, now).startsAt;
    if (starts >= now - 60_000) setAim(next);
    else
      setNotice({
        text: `Too late for that: it would have had to begin ${whenText(starts, now)}.`,
        ink: 'watch',
      });
  };

  /** Space goes on to the end of the warnings, then begins; any other key goes back to the sheet. */
  const pressOver = (shown: Over, act: string | null) => {
    const next = nextOver({ look, view, over: shown, ...body });
    if (shown.kind === 'help') setOver(act === 'help' ? next : null);
    else if (act !== 'begin') setOver(null);
    else if (next !== null) setOver(next);
    else {
      setOver(null);
      setRead(worthReading(view));
      void begin();
    }
  };

  useKeys(
    (key: KeyName) => {
      setNotice(null);
      setNow(services.now());
      const act = actOf('sheet', key);
      if (over !== null) pressOver(over, act);
      else if (act === 'help') setOver({ kind: 'help', from: 0 });
      else if (act === 'begin') start();
      else if (act === 'back' || act === 'leave') onBack();
      else if (act === 'practise') onPractise?.({ recipe: view.recipe, kitchen: view.plan.kitchen });
      else if (act === 'page') {
        setPage(current => PAGES[(PAGES.indexOf(current) + 1) % PAGES.length] ?? 'facts');
        setPicked(0);
        setScroll(0);
      } else if (act === 'change') change(key === 'right' ? 1 : -1);
      else if (page === 'full')
        setScroll(current => movePick(current, key, fullCount - regions.body.height + 1));
      else setPicked(current => movePick(current, key, picks));
    },
    true,
    services.steady,
  );

  const answers: KeyLabel[] = [
    {
      shown: 'Space',
      says: refused ? 'why the plan says no' : unread ? 'warnings, then begin' : 'begin this batch',
    },
    { shown: '↑↓', says: page === 'full' ? 'read on' : 'choose a line' },
    ...(page === 'full' ? [] : [{ shown: '←→', says: 'change it' }]),
  ];
  const overAnswers = (shown: Over): KeyLabel[] => {
    const more = nextOver({ look, view, over: shown, ...body }) !== null;
    if (shown.kind === 'help') return more ? [{ shown: '?', says: 'more' }] : [];
    if (more) return [{ shown: 'Space', says: 'read on' }];
    return refused ? [] : [{ shown: 'Space', says: 'begin all the same' }];
  };
  return (
    <Frame
      look={look}
      regions={regions}
      left={visible(view.recipe.name)}
      right={`plan ${PAGES.indexOf(page) + 1} of ${PAGES.length}`}
      marks={services.marks}
      notice={notice}
      answers={over === null ? answers : overAnswers(over)}
      tools={
        over !== null
          ? [{ shown: 'Esc', says: 'back to the sheet' }]
          : [
              {
                shown: 'Tab',
                says:
                  page === 'facts' ? 'times' : page === 'times' ? 'warnings, shopping, cost' : 'the sheet',
              },
              ...(services.practice ? [{ shown: 'p', says: 'practise' }] : []),
              { shown: '?', says: 'help' },
              { shown: 'Esc', says: 'back' },
            ]
      }
    >
      <Box flexDirection="column" width={body.width} height={body.height} overflow="hidden">
        {over !== null && <OverPage look={look} view={view} over={over} {...body} />}
        {over === null && page === 'facts' && <FactsPage look={look} view={view} picked={picked} {...body} />}
        {over === null && page === 'times' && <TimesPage look={look} view={view} picked={picked} {...body} />}
        {over === null && page === 'full' && <FullPage look={look} view={view} scroll={scroll} {...body} />}
      </Box>
    </Frame>
  );
};

/** The aim after an arrow: by full half hours, from what is shown. */
function movedAim({ timeline, now }: SheetView, line: (typeof TIME_LINES)[number], by: 1 | -1): Aim {
  if (line === 'ready') return { by: 'ready', at: halfHour(timeline.readyAt, by) };
  const at = halfHour(timeline.startsAt, by);
  return at <= now ? null : { by: 'start', at };
}
