/** Beside the coach in practice: what is seen, the flame, the valve, and how fast the clock runs. */
import { Box } from 'ink';
import type { PracticeSession } from '../../core/practice/session.ts';
import { KNOB_TOP } from '../../core/practice/burner.ts';
import { faster, hurriedOn, maySleep } from '../../core/practice/pace.ts';
import type { Look } from '../look.ts';
import { COMPACT, LARGE, type PictureSize } from '../pictures/frame.ts';
import type { SeenPicture } from '../practice-sights.ts';
import { type Span, span } from '../spans.ts';
import { DrawingView } from '../widgets/drawing-view.tsx';
import { InkText, SpanLine } from '../widgets/ink-text.tsx';

/** Between the two sizes of the answers' pictures: for a terminal of 80 columns where no answer has one. */
const MIDDLE: PictureSize = { width: 24, height: 8 };
/** Left gap of the column, and a cell at its right. */
const GAP = 4;

/** Size of the picture of what is seen; `pictured`: the answers have pictures of their own to be compared with. */
export function sidePicture(width: number, height: number, pictured: boolean): PictureSize {
  if (width >= 96 && height >= 20) return LARGE;
  return !pictured && width >= 76 && height >= 16 ? MIDDLE : COMPACT;
}
/** Width of the side column with its picture. */
export const sideWidth = (picture: PictureSize): number => picture.width + GAP;

export interface PracticeSideProps {
  readonly look: Look;
  readonly session: PracticeSession;
  readonly seen: SeenPicture | null;
  /** More than one thing can be looked at, or it has to be gone and looked at. */
  readonly canLook: boolean;
  readonly height: number;
  readonly size: PictureSize;
}

function flameSpans(look: Look, { knob, flameOut }: PracticeSession): Span[] {
  const [full, none] = look.ascii ? ['#', '-'] : ['▮', '▯'];
  return [
    span(full.repeat(knob), flameOut ? 'faint' : 'watch'),
    span(none.repeat(KNOB_TOP - knob), 'faint'),
    span(` ${flameOut ? 'out' : knob}`, flameOut ? 'danger' : 'strong'),
  ];
}

/** How fast the clock runs just now, and what its key does about it. */
function speedLines({ pace, speed, wish }: PracticeSession): Span[][] {
  const on = wish.lesson || wish.auto ? null : hurriedOn(pace, speed);
  const slowed = on !== null;
  const next = on ?? faster(speed);
  return [
    [span(slowed ? 'slowed to ' : 'time runs ', slowed ? 'watch' : 'plain'), span(`${pace}x`, 'strong')],
    [span('s ', 'accent'), span(wish.lesson ? 'hurry or not' : `${next > pace ? 'on' : 'back'} to ${next}x`)],
  ];
}

/** Everything there is to know and to press, in as few lines as the room asks for. */
function sideLines(look: Look, session: PracticeSession, canLook: boolean, room: number): Span[][] {
  const { knob, flameOut, valveOpen, pace } = session;
  const valve = valveOpen === null ? [] : [[span('valve '), span(valveOpen ? 'open' : 'shut', 'strong')]];
  const looks = canLook ? [span('l ', 'accent'), span('look ')] : [];
  const sleeps = maySleep(session.run.batch) ? [span('z ', 'accent'), span('sleep')] : [];
  const roomy = [
    flameOut ? [span('+ ', 'accent'), span('lights it')] : [span('+ - ', 'accent'), span('flame')],
    flameSpans(look, session),
    ...valve,
    ...[looks, sleeps].filter(line => line.length > 0),
    ...speedLines(session),
  ];
  if (roomy.length <= room) return roomy;
  return [
    [
      span('+ - ', 'accent'),
      span('flame '),
      span(flameOut ? 'out' : `${knob}`, flameOut ? 'danger' : 'strong'),
    ],
    ...valve,
    ...(looks.length + sleeps.length > 0 ? [[...looks, ...sleeps]] : []),
    [span('s ', 'accent'), span('speed '), span(`${pace}x`, 'strong')],
  ];
}

export const PracticeSide = ({ look, session, seen, canLook, height, size }: PracticeSideProps) => {
  const room = height - size.height - 1;
  const lines = sideLines(look, session, canLook, room);
  return (
    <Box width={sideWidth(size)} flexShrink={0} flexDirection="column" paddingLeft={3}>
      <InkText look={look} ink="accent">
        {seen ? seen.caption : ' '}
      </InkText>
      {seen ? (
        <DrawingView look={look} drawing={seen.drawing} label={`what you see: ${seen.caption}`} />
      ) : (
        <Box height={size.height} flexShrink={0} />
      )}
      <Box height={room > lines.length ? 1 : 0} flexShrink={0} />
      {lines.slice(0, Math.max(1, room)).map((spans, index) => (
        <SpanLine key={index} look={look} spans={spans} />
      ))}
    </Box>
  );
};
