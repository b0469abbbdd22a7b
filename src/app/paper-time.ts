import { formatStamp, type OffsetAt, parseStamp, wallTime } from '../base/instant.ts';
import { ok, type Result, refuse } from '../base/result.ts';
import { wrongTime } from '../bundle/from-paper.ts';
import { refusal } from './acts.ts';
import type { App } from './app.ts';
import { speak, why } from './speak.ts';

/** The program with the time that the paper says of what comes next. */
export function onPaper(app: App, typed: Result<string>): App {
  if (!app.paper) return app;
  const stamp = (typed.ok && app.play && wrongTime(app.play.bundle, typed.value, app.now)) || typed;
  return stamp.ok
    ? {
        ...app,
        paper: { ...app.paper, doneAt: stamp.value },
        message: {
          tone: 'plain',
          text: speak(app)('Done at {time}, as on the paper.', { time: stampWords(stamp.value) }),
        },
      }
    : { ...app, message: refusal(why(app, stamp.error)) };
}

/** A time of a paper, `10:42` on the day `before` or `2026-11-24 10:42`, as an RFC 3339 stamp with the room's offset at that time. */
export function paperStamp(text: string, before: string, offsetAt: OffsetAt): Result<string> {
  const [, day = before.slice(0, 10), hour = '', minute = ''] =
    /^(?:(\d{4}-\d{2}-\d{2})[T ]+)?(\d{1,2})[:.](\d{2})$/.exec(text.trim()) ?? [];
  const wall = `${day}T${hour.padStart(2, '0')}:${minute}`;
  const zone = formatStamp({ ms: 0, offset: parseStamp(`${wall}:00Z`) ? offsetAt(wall) : 0 }).slice(-6);
  const stamp = `${wall}:00.000${zone}`;
  return hour !== '' && parseStamp(stamp)
    ? ok(stamp)
    : refuse('paper-time', 'Type the time as it stands on the paper, such as @10:42 or @2026-11-24 10:42.');
}

const stampWords = (stamp: string): string => `${stamp.slice(0, 10)} ${wallTime(stamp)}`;
