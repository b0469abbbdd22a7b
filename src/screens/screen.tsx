import { useMemo, useSyncExternalStore } from 'react';
import type { App } from '../app/app.ts';
import { pictureAt } from '../app/step-pictures.ts';
import type { AppStore } from '../app/store.ts';
import type { Size } from '../terminal/open-terminal.ts';
import type { PlacedPicture } from '../terminal/placed-picture.ts';
import { usePicture } from '../terminal/use-picture.ts';
import { useSize } from '../terminal/use-size.ts';
import { Lines } from '../widgets/lines.tsx';
import { besideRoom, page } from '../widgets/page.ts';
import type { Row } from '../widgets/row.ts';
import type { Theme } from '../widgets/theme.ts';
import { pageOf } from './page-of.ts';
import { noTruePictures, type TruePictures } from './true-pictures.ts';

interface ScreenProps {
  readonly store: AppStore;
  readonly theme: Theme;
  readonly pictures?: TruePictures;
}

/** The program on the screen: always the picture of the store's state at the terminal's size. */
export function Screen({ store, theme, pictures = noTruePictures }: ScreenProps) {
  const app = useSyncExternalStore(store.subscribe, store.app);
  const made = useSyncExternalStore(pictures.subscribe, pictures.version);
  const { columns, rows } = useSize();
  // biome-ignore lint/correctness/useExhaustiveDependencies: a picture that has just been made is found only when it is asked for again
  const shown = useMemo(() => draw(app, { columns, rows }, pictures), [app, columns, rows, pictures, made]);
  usePicture(shown.placed);
  return <Lines rows={shown.rows} width={columns} height={rows} theme={theme} />;
}

interface Drawn {
  readonly rows: readonly Row[];
  readonly placed: PlacedPicture | null;
}

/** The rows, and over them the picture of pixels where there is one: then its room stays blank. */
function draw(app: App, size: Size, pictures: TruePictures): Drawn {
  const whole = pageOf(app, size);
  const room = besideRoom(whole);
  const step = room && pictureAt(app);
  const sent = room && step ? pictures.find(step, { columns: room.columns - 1, rows: room.rows }) : null;
  if (!room || !sent || !whole.beside) return { rows: page(whole), placed: null };
  const rows = page({ ...whole, beside: { ...whole.beside, draw: () => [] } });
  const beside = JSON.stringify(rows.slice(room.row, room.row + room.rows));
  return { rows, placed: { picture: sent, ...room, columns: room.columns - 1, beside } };
}
