import type { Clock } from '../base/instant.ts';
import type { App } from './app.ts';
import type { Effect, News } from './effect.ts';
import { update } from './update.ts';

/** The running program: news goes in, screens look on. */
export interface AppStore {
  /** The program as it is now. */
  app(): App;
  /** Tells what has happened. Kept in order: nothing is looked at before all effects of what came earlier have answered. */
  tell(news: News): void;
  /** Calls back after each change; returns a function that ends it. */
  subscribe(changed: () => void): () => void;
  /** Resolves with the exit code when the program is over, rejects when an effect broke. */
  readonly over: Promise<number>;
  /** Resolves when everything told so far, and all that came of it, is done; rejects as `over` does when an effect broke. */
  settled(): Promise<void>;
}

/** `perform` carries out one effect and answers with the news that came of it. */
export function startStore(first: App, clock: Clock, perform: (effect: Effect) => Promise<readonly News[]>): AppStore {
  let app = first;
  let working: Promise<void> | null = null;
  let broken = false;
  const queue: News[] = [];
  const watchers = new Set<() => void>();
  const over = Promise.withResolvers<number>();
  // Whoever awaits `over` hears of it; nobody need.
  over.promise.catch(() => {});

  function pump(): void {
    working ??= work()
      .catch((trouble: unknown) => {
        broken = true;
        over.reject(trouble);
      })
      .finally(() => {
        working = null;
        // News may have come in after the last look at the queue.
        if (queue.length > 0 && app.ended === null && !broken) pump();
      });
  }

  async function work(): Promise<void> {
    for (let news = queue.shift(); news !== undefined && app.ended === null; news = queue.shift()) {
      const before = app;
      await take(news);
      // Only when all that came of it is done: what is shown as ticked is on disk, and nothing half done is drawn.
      if (app !== before) for (const changed of watchers) changed();
    }
    if (app.ended !== null) over.resolve(app.ended);
  }

  async function take(news: News): Promise<void> {
    const [after, effects] = update(app, { ...news, now: clock() });
    app = after;
    for (const effect of effects) for (const answer of await perform(effect)) await take(answer);
  }

  return {
    app: () => app,
    tell(news) {
      queue.push(news);
      if (!broken) pump();
    },
    subscribe(changed) {
      watchers.add(changed);
      return () => watchers.delete(changed);
    },
    over: over.promise,
    async settled() {
      while (working) await working;
      if (broken) await over.promise;
    },
  };
}
