import { useStdout } from 'ink';
import { useSyncExternalStore } from 'react';
import type { Size } from './open-terminal.ts';

/** The size of the terminal a component is drawn on; the component is drawn again when it changes. 80 by 24 when nobody knows. */
export function useSize(): Size {
  const { stdout } = useStdout();
  const subscribe = (changed: () => void): (() => void) => {
    stdout.on('size', changed).on('resize', changed);
    return () => stdout.off('size', changed).off('resize', changed);
  };
  const [columns = 80, rows = 24] = useSyncExternalStore(subscribe, () => spell(stdout))
    .split(' ')
    .map(Number);
  return { columns, rows };
}

interface Drawn extends NodeJS.WritableStream {
  readonly columns?: number;
  readonly rows?: number;
}

/** One string, so that the same size is the same value. */
const spell = ({ columns, rows }: Drawn): string => `${columns || 80} ${rows || 24}`;
