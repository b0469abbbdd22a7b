import type { Say } from '../words/say.ts';
import type { App } from './app.ts';
import { mayFold } from './fold.ts';
import { speak } from './speak.ts';
import { picturesAtHand } from './step-pictures.ts';

/** What can be typed at this moment. The words that are typed are the same in every language. */
export function dialogueHelp(app: App): readonly string[] {
  const say = speak(app);
  if (!app.play) return [say('Type what is asked for; `leave` ends.')];
  return [
    ...(app.paper
      ? [
          say(
            '`@10:42` or `@2026-11-24 10:42`: the time on the paper, for all that follows. `-`: left blank on the paper, so it ends here.',
          ),
        ]
      : []),
    say('An empty line: done, read, next. A value: the value (in "…" when it begins with one of these words).'),
    ...(app.paper ? onPaper(say) : atMachine(app, say)),
  ];
}

/** What was never done on paper is done at the station. */
const onPaper = (say: Say): readonly string[] => [
  say('`hold REASON`. `go back REASON`: when the step allows it. `note TEXT`. `leave`: the bundle waits for you.'),
];

function atMachine(app: App, say: Say): readonly string[] {
  return [
    say('`back`: what is recorded. `undo`: strike what was just recorded, within five seconds.'),
    say('`strike REASON`: the newest entry; `strike #57 REASON`: that one. `note TEXT`.'),
    say('`hold REASON`. `settle`: a supervisor ends a hold. `go back REASON`: when the step allows it.'),
    ...(picturesAtHand(app.play).length > 0 ? [say('`picture`: what the step shows, once more.')] : []),
    ...(app.play?.thread ? [say('`bobbin`: a full one is in; `bobbin 12.5`: so many metres are on it.')] : []),
    ...(mayFold(app) ? [say('`fold`: without the explanations, all points at once; `unfold`: with them again.')] : []),
    say('`hands over NAME`. `leave`: the bundle waits for you. `never mind`: out of a question.'),
  ];
}
