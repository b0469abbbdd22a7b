import { useSyncExternalStore } from 'react';
import type { AppStore } from '../app/store.ts';
import { useSize } from '../terminal/use-size.ts';
import { Lines } from '../widgets/lines.tsx';
import { page } from '../widgets/page.ts';
import type { Theme } from '../widgets/theme.ts';
import { picture } from './picture.ts';

/** The program on the screen: always the picture of the store's state at the terminal's size. */
export function Screen({ store, theme }: { readonly store: AppStore; readonly theme: Theme }) {
  const app = useSyncExternalStore(store.subscribe, store.app);
  const size = useSize();
  return <Lines rows={page(picture(app, size))} width={size.columns} height={size.rows} theme={theme} />;
}
