import { modeOf } from '../../src/app/mode.ts';
import type { AppStore } from '../../src/app/store.ts';
import type { Key } from '../../src/keys/key.ts';
import { translate } from '../../src/keys/translate.ts';

/** A lining with every kind of point, as it is sewn on the screens of these tests. */
export const lining = `---
procedure: T-1
title: Cabin-top lining, batten sleeves
sets: 2
---

# Cabin-top lining, batten sleeves

## Count the kit

- For the whole bundle
- Allowed time: 5 min
- If out: hold the bundle and call the kitter

Eleven pieces make one lining, 22 make the bundle. *One missing piece found now saves a half-sewn lining.*

- [ ] Pieces in the bundle ____ pcs (22)
- [ ] Roll of the plain vinyl ____
- [ ] Shade against the swatch ____ (**match** / lighter / darker)

## Measure the panel

- Allowed time: 6 min

Lay the panel flat on the table, wrong side up, and let it rest before you measure.

- [ ] Diagonal \`d1\` ____ mm (1818 +4/-2)
- [ ] Diagonal \`d2\` ____ mm (1818 +4/-2)
- [ ] Out of square \`|d1 - d2|\` = ____ mm (max 4)
- [ ] Flash-off of the adhesive ____ min (min 10)

## Sew the sleeves to their lines

- Seams: D1 D2 D3 D4, stitch 301 at 4.0 mm, visible
- Allowed time: 12 min
- Needs skill: sleeve to line
- If out: back to Measure the panel
- Cannot be undone

> **WARNING** Needle. The needle can go through your finger. Take your foot off the treadle before your hand goes near it.

> **NOTICE** Vinyl. A wrong hole shows on the face for ever. Look at length, side and line before the first stitch.

![Sleeves on their lines](../media/lining.svg#D1,D2,D3,D4)

Raw edges to the pencil line. Keep every sleeve lying toward the front. *A reversed sleeve will not take its batten.*

- [ ] Raw edges lie on the pencil line from end to end
- [ ] Sewn line to the cut edge of A, three places ____ ____ ____ mm (312 ±1.5)
- [ ] Sleeve bore, laid flat ____ mm (27 +2/-0)
- [ ] All four sleeves lie toward the front, none twisted
- [ ] **Hold point** first lining of the day looked over
`;

/** The same after a change, for the hand who sewed it before. */
export const changedLining = lining
  .replace('312 ±1.5', '312 ±1')
  .replace('- [ ] Sleeve bore', '- [ ] Foot is clear of the sleeve\n- [ ] Sleeve bore')
  .replace('Needle. The needle', 'Needle and foot. The needle');

/**
 * Presses keys as a person does, words separated by spaces: `enter`, `esc`, `up`, `down`, `page-down`; `"312"` is typed letter by letter;
 * anything else is one letter.
 */
export async function press(program: AppStore, keys: string): Promise<void> {
  for (const word of keys.match(/"[^"]*"|\S+/g) ?? []) for (const key of keysOf(word)) await pressKey(program, key);
}

export async function pressKey(program: AppStore, key: Key): Promise<void> {
  const move = translate(modeOf(program.app()), key);
  if (move) program.tell({ news: 'move', move });
  await program.settled();
}

function keysOf(word: string): readonly Key[] {
  if (word.startsWith('"')) return [...word.slice(1, -1)].map((text) => ({ key: 'text', text }));
  if (word === 'enter') return [{ key: 'enter', held: 'no' }];
  if (word === 'esc') return [{ key: 'escape' }];
  return [word.length === 1 ? { key: 'text', text: word } : ({ key: word } as Key)];
}
