/** Joins a session to the run screen: keys become deeds, refusals become notices, alerts ring. */
import { Box } from 'ink';
import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react';
import { wantedNow } from '../../core/batch/wanted.ts';
import { countOf } from '../../core/batch/countdown.ts';
import { scheduleOf } from '../../core/batch/schedule.ts';
import type { Batch } from '../../core/batch/state.ts';
import type { StepId } from '../../core/batch/steps.ts';
import type { TroubleId } from '../../core/batch/troubles.ts';
import { keepingProbe } from '../../core/estimate/probe-kept.ts';
import { containerKey } from '../../core/recipe/recipe.ts';
import type { Services } from '../../core/services.ts';
import type { Session } from '../../core/session.ts';
import { visible } from '../../core/text.ts';
import { doneTitle } from '../../core/words/done.ts';
import { refusalWords } from '../../core/words/refusals.ts';
import { STEP_NAMES } from '../../core/words/steps.ts';
import { wantedWords } from '../../core/words/wanted.ts';
import { countText, minuteOfDay, tellingOf } from '../format.ts';
import type { KeyName } from '../keys.ts';
import type { Look } from '../look.ts';
import { panelKeys } from '../panel-keys.ts';
import type { Regions } from '../regions.ts';
import { ASKING, isTyping, type Panel, pressOnRun } from '../run-keys.ts';
import { answersOf } from '../run-view.ts';
import { panelTools, stepTools } from '../run-tools.ts';
import { useRun } from '../use-session.ts';
import { Frame, noticeLines, type Notice } from '../widgets/frame.tsx';
import { StepList } from '../widgets/step-list.tsx';
import { DROPPED_WORDS, useKeys } from '../use-keys.ts';
import { useAfterActs } from '../use-after-acts.ts';
import { DoneScreen } from './done.tsx';
import { PanelScreen } from './panels.tsx';
import type { RecordPlace } from './record-places.tsx';
import { runHead, RunScreen } from './run.tsx';

export interface RunControllerProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly session: Session;
  readonly services: Services;
  readonly onLeave: () => void;
  /** To the screens after the batch; absent in practice. */
  readonly onAfter?: (place: RecordPlace) => void;
  /** What practice adds to the run: marks, a column beside it, keys of its own, things heard. */
  readonly extras?: RunExtras;
}

export interface RunExtras {
  readonly marks: readonly string[];
  readonly side: ReactNode;
  readonly sideWidth: number;
  readonly notice: Notice | null;
  readonly brief: boolean;
  /** Takes a key before the run does: true when it was taken, a sentence when it was refused. */
  readonly onKey: (key: KeyName) => boolean | string;
  /** Keys of its own that turn a knob, step by step. */
  readonly turning: readonly KeyName[];
}
const NO_KEYS: readonly KeyName[] = [];

/** So long a sentence about dropped keys, or an answer to a key, stays. */
const DROPPED_MS = 8_000;
const SAID_MS = 60_000;

/** Keeps what the thermometer measured, under the kind of container it was in. */
function keepProbe(batch: Batch, services: Services, say: (notice: Notice) => void): void {
  const change = keepingProbe(batch, services.kitchen().kitchen);
  const key = containerKey(batch.header.recipe.containers);
  if (!change) return;
  void services
    .saveKitchen(change)
    .then(problem =>
      say(
        problem === null
          ? { text: `Kept for ${key}: the next plan counts with yours.`, ink: 'good' }
          : { text: visible(problem), ink: 'danger' },
      ),
    );
}

/** Rings for what the batch wants; silent while it wants nothing. */
function useAlerts(batch: Batch, services: Services, watching: boolean): void {
  const wanted = watching ? null : wantedNow(batch);
  const code = wanted?.code ?? null;
  const kind = wanted?.kind ?? null;
  const { alerter } = services;
  useEffect(() => {
    if (code === null || kind === null) alerter.answered();
    else alerter.raise({ kind, says: wantedWords({ kind, code, since: 0 }) });
  }, [code, kind, alerter]);
  const count = countOf(batch);
  const progress = count?.totalMs ? 1 - count.ms / count.totalMs : null;
  const number = count ? ` ${countText(Math.ceil(count.ms / 60_000) * 60_000, 'down')}` : '';
  const here = batch.finishedAt === null ? STEP_NAMES[batch.step] : doneTitle(batch);
  const title = wanted ? wantedWords(wanted) : `${here}${number}`;
  const shownProgress = progress === null ? null : Math.round(progress * 100) / 100;
  useEffect(() => alerter.show({ title, progress: shownProgress }), [alerter, title, shownProgress]);
}

export const RunController = (props: RunControllerProps) => {
  const { look, regions, session, services, onLeave, extras } = props;
  const { batch, past } = useRun(session);
  const [panel, showPanel] = useState<Panel>(ASKING);
  // Several keys of one event must each see what the one before them did.
  const open = useRef<Panel>(ASKING);
  const [notice, setNotice] = useState<Notice | null>(() =>
    session.notices.length > 0 ? { text: visible(session.notices.join(' ')), ink: 'watch' } : null,
  );
  const [told, setTold] = useState<{ readonly id: TroubleId; readonly step: StepId } | null>(null);
  const { units } = services.kitchen().kitchen;
  const watching = session.role === 'watching';
  const telling = useMemo(() => tellingOf(batch, units), [batch, units]);
  useAlerts(batch, services, watching);
  const heard = useRef(session.notices.length);

  // What was said of a key is stale soon, and an old sentence reads like a new one.
  useEffect(() => {
    if (notice?.lastsMs === undefined) return;
    const timer = setTimeout(() => setNotice(null), notice.lastsMs);
    return () => clearTimeout(timer);
  }, [notice]);

  useEffect(() => {
    if (session.notices.length > heard.current) {
      heard.current = session.notices.length;
      setNotice({ text: session.notices.at(-1) ?? '', ink: 'watch' });
    }
  });

  const goOn = useAfterActs(session, services, props.onAfter, setNotice);

  const press = (key: KeyName) => {
    const extra = open.current.kind === 'ask' ? (extras?.onKey(key) ?? false) : false;
    if (extra !== false) {
      // What practice says by itself, a tip above all, is soon to be read again.
      setNotice(extra === true ? null : { text: extra, ink: 'watch', lastsMs: DROPPED_MS });
      return;
    }
    const pressed = pressOnRun(open.current, session.run, key, units, watching);
    open.current = pressed.panel;
    showPanel(pressed.panel);
    setNotice(pressed.says ? { text: pressed.says, ink: 'watch', lastsMs: SAID_MS } : null);
    if (pressed.leave) onLeave();
    if (pressed.keepProbe) keepProbe(session.run.batch, services, setNotice);
    if (pressed.after) goOn(pressed.after);
    if (!pressed.deed) return;
    const before = session.run.batch.deviations.length;
    const refusal = session.send(pressed.deed);
    services.alerter.answered();
    if (refusal) {
      const text = refusalWords(session.run.batch, refusal, telling);
      if (refusal.code === 'above-marked') {
        // Nothing else matters now: what to do stands on the screen, and the word that says it was done.
        open.current = { kind: 'ends', trouble: 'over-pressure', text: '' };
        showPanel(open.current);
        setNotice({ text, ink: 'danger' });
        return;
      }
      setNotice({ text, ink: 'watch', lastsMs: SAID_MS });
      return;
    }
    const noted = session.run.batch.deviations;
    const last = noted.length > before ? noted.at(-1) : undefined;
    setTold(last && !last.takenBack ? { id: last.trouble, step: session.run.batch.step } : null);
  };
  const onDropped = (why: 'held' | 'wiped') => {
    setNotice({ text: DROPPED_WORDS[why], ink: 'faint', lastsMs: DROPPED_MS });
  };
  const turning = panel.kind === 'ask' ? (extras?.turning ?? NO_KEYS) : NO_KEYS;
  useKeys(press, isTyping(panel), services.steady, onDropped, [], turning);

  const asking = panel.kind === 'ask';
  // A copy that watches takes no answers, so it shows none.
  const asked = watching ? [] : answersOf(batch, telling);
  const answers = asking ? asked : panelKeys(panel, batch, regions);
  const tools = asking ? stepTools(batch, past.length > 0, watching) : panelTools(panel, answers);
  const { left, right } = runHead(batch, telling, regions.columns);
  const trouble: Notice | null = session.trouble ? { text: visible(session.trouble), ink: 'danger' } : null;
  const marks = [
    ...services.marks,
    ...(batch.header.practice ? ['PRACTICE'] : []),
    ...(watching ? ['WATCHING'] : []),
    ...(extras?.marks ?? []),
  ];
  const { body } = regions;
  const staying = trouble ?? extras?.notice ?? null;
  // A long message that stays gets its rows; for one that goes by itself nothing jumps, and the last rows give way.
  const height = body.height + 1 - noticeLines(staying, regions.columns).length;
  const beside: Regions = {
    ...regions,
    body: { width: body.width - (extras?.sideWidth ?? 0), height },
  };
  const stops = regions.margin
    ? scheduleOf(batch, minuteOfDay).map(stop => ({ ...stop, clock: telling.clock(stop.endsAt) }))
    : [];
  return (
    <Frame
      look={look}
      regions={regions}
      left={left}
      right={right}
      marks={marks}
      notice={trouble ?? notice ?? staying}
      answers={answers}
      tools={tools}
      aside={
        regions.margin ? (
          <StepList look={look} stops={stops} width={regions.margin} height={regions.body.height} />
        ) : null
      }
    >
      {panel.kind === 'ask' && batch.finishedAt !== null ? (
        <DoneScreen
          look={look}
          regions={beside}
          batch={batch}
          telling={telling}
          after={batch.header.practice ? undefined : services.after}
        />
      ) : panel.kind === 'ask' ? (
        <Box flexShrink={0}>
          <RunScreen
            look={look}
            regions={beside}
            batch={batch}
            telling={telling}
            told={told?.step === batch.step ? told.id : null}
            brief={extras?.brief === true}
          />
          {extras?.side}
        </Box>
      ) : (
        <PanelScreen
          look={look}
          regions={regions}
          batch={batch}
          telling={telling}
          units={units}
          panel={panel}
        />
      )}
    </Frame>
  );
};
