import { assertNever } from '../base/assert-never.ts';
import type { HandId, TicketId } from '../base/brand.ts';
import type { Language } from '../base/language.ts';
import type { Result } from '../base/result.ts';
import type { StationThread } from '../bundle/bobbin.ts';
import type { Bundle } from '../bundle/bundle.ts';
import type { Command } from '../bundle/command.ts';
import { THE_ROOM } from '../bundle/entries.ts';
import { releaseOf, releaseOfText } from '../bundle/room.ts';
import { SALT_BYTES } from '../ledger/scrypt-pin.ts';
import type { Difference } from '../procedure/difference.ts';
import { loadWords } from '../words/load.ts';
import { saying } from '../words/say.ts';
import type { App } from './app.ts';
import type { Effect, News } from './effect.ts';
import type { Attempted, Playing, RoomLedger } from './room-ledger.ts';
import { pinAsked, signFirst, signWith } from './sign.ts';
import { languageOf } from './speak.ts';

/** What the station reckons of its bobbins for the text that is played; undefined where it does not. */
export type ThreadOf = (playing: Playing) => Promise<StationThread | undefined>;

/**
 * Carries out the effects on a ledger. `ring` sounds the bell; `app` tells which bundle is being played; `random` answers so many random
 * bytes.
 */
export function performer(
  ledger: RoomLedger,
  ring: () => void,
  app: () => App,
  random: (bytes: number) => Uint8Array,
  threadOf: ThreadOf,
): (effect: Effect) => Promise<readonly News[]> {
  return async (effect) => {
    switch (effect.effect) {
      case 'bell':
        ring();
        return [];
      case 'look': {
        await ledger.catchUp();
        const { play } = app();
        const playing = play ? await ledger.playing(play.ticket) : null;
        return [
          {
            news: 'seen',
            room: ledger.room(),
            bundles: await seen(),
            playing: playing?.ok ? await inTongue(playing.value) : null,
          },
        ];
      }
      case 'attempt': {
        return inWords(await attempt(effect.ticket, effect.command));
      }
      case 'sign': {
        const { to, pin, as } = effect;
        const done = await (as === 'first'
          ? signFirst(ledger, to, pin, random(SALT_BYTES))
          : signWith(ledger, to, pin));
        return inWords(await outcome(to.command, done));
      }
      case 'take': {
        const { ticket, hand, paper } = effect;
        const found = await ledger.playing(ticket);
        if (!found.ok) return [{ news: 'refused', refusal: found.error }];
        const what = found.value.bundle.text ? 'resume' : 'open';
        return inWords(await attempt(ticket, { do: what, hand, ...(paper ? { paper } : {}) }));
      }
      case 'open at desk': {
        const found = await ledger.playing(effect.ticket);
        return [
          found.ok
            ? {
                news: 'taken',
                room: ledger.room(),
                playing: await inTongue(found.value),
                bundles: await seen(),
                changes: [],
              }
            : { news: 'refused', refusal: found.error },
        ];
      }
      default:
        return assertNever(effect);
    }
  };

  /** A desk tells of each bundle how long it has had no entry, so there they are read whole. */
  async function seen(): Promise<readonly Bundle[]> {
    return app().desk === null ? ledger.bundles() : wholeBundles(ledger);
  }

  async function attempt(ticket: TicketId | null, command: Command): Promise<News> {
    const done = await ledger.attempt(ticket, command);
    const stage = done.ok ? undefined : pinAsked(done.error.rule);
    const signature = stage && ledger.signature(ticket, command);
    return stage && signature
      ? { news: 'pin asked', to: { ticket, command, signature, by: app().hand ?? THE_ROOM }, stage }
      : outcome(command, done);
  }

  /** With somebody at the machine come the words of their language. */
  async function inWords(news: News): Promise<readonly News[]> {
    const isNew = news.news === 'taken' || (news.news === 'done' && news.command.do === 'sign on');
    const { paper, hand: atMachine } = app();
    const hand = news.news === 'done' ? news.command.hand : (paper?.by ?? atMachine);
    return isNew && hand !== null ? [{ news: 'words', words: await loadWords(readBy(hand)) }, news] : [news];
  }

  function readBy(hand: HandId): Language {
    return languageOf({ room: ledger.room(), language: app().language }, hand);
  }

  async function taken({ room, playing }: Attempted): Promise<News> {
    if (!playing) throw new Error('a ticket was taken up without a bundle');
    const seen = await inTongue(playing);
    return { news: 'taken', room, playing: seen, bundles: ledger.bundles(), changes: await changesFor(playing, seen) };
  }

  /** What changed since the hand sewed it last, by the sheets in their language where both texts were released with one. */
  async function changesFor(main: Playing, seen: Playing): Promise<readonly Difference[]> {
    const { hand, paper } = app();
    const reader = paper?.by ?? hand;
    const from = main.bundle.changesToRead?.from;
    const release = from && releaseOfText(ledger.room(), from);
    if (!release || reader === null) return [];
    const language = readBy(reader);
    const sheet = seen.sheet && release.sheets.find((each) => each.language === language);
    const words = sheet && (await ledger.procedure(sheet.understood));
    const before = await ledger.procedure(release.understood);
    // Loaded when a hand meets a new revision: few sessions do.
    const { changesIn } = await import('./changes-in.ts');
    const say = saying(await loadWords(language));
    if (words?.ok) return changesIn(say, words.value, seen.procedure);
    return before.ok ? changesIn(say, before.value, main.procedure) : [];
  }

  /** The procedure in the words of the hand at the machine, where they were released with it. */
  async function inTongue(playing: Playing): Promise<Playing> {
    const { hand, paper } = app();
    // What stood on the paper is not known, so it is typed in by the main text.
    const language = hand === null || paper ? undefined : readBy(hand);
    const sheet = releaseOf(ledger.room(), playing.bundle)?.sheets.find((each) => each.language === language);
    const words = sheet && (await ledger.procedure(sheet.understood));
    const thread = await threadOf(playing);
    const reckoned = thread ? { ...playing, thread } : playing;
    return sheet && words?.ok ? { ...reckoned, procedure: words.value, sheet: sheet.digest } : reckoned;
  }

  async function outcome(command: Command, done: Result<Attempted>): Promise<News> {
    const isTaking = (command.do === 'open' || command.do === 'resume') && app().play === null;
    if (isTaking) return done.ok ? taken(done.value) : { news: 'refused', refusal: done.error };
    return done.ok
      ? {
          news: 'done',
          command,
          ...done.value,
          playing: done.value.playing && (await inTongue(done.value.playing)),
          bundles: await seen(),
        }
      : { news: 'refused', refusal: done.error, command };
  }
}

/** Every ticket with all that happened to it, as long as it is not finished. */
export async function wholeBundles(ledger: RoomLedger): Promise<readonly Bundle[]> {
  const bundles: Bundle[] = [];
  for (const bundle of ledger.bundles()) {
    const whole = bundle.work === 'finished' ? undefined : await ledger.playing(bundle.ticket);
    bundles.push(whole?.ok ? whole.value.bundle : bundle);
  }
  return bundles;
}
