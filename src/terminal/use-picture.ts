import { useStdout } from 'ink';
import { useInsertionEffect, useLayoutEffect } from 'react';
import { Canvas } from './canvas.ts';
import type { PlacedPicture } from './placed-picture.ts';

/**
 * Shows a picture of pixels over blank cells of the frame that this component draws; `null` shows none. React runs the first effect
 * before it hands the frame to Ink, and the second one after: so the canvas knows of the picture when the frame comes, and hears of
 * it too when Ink finds nothing to write.
 */
export function usePicture(placed: PlacedPicture | null): void {
  const { stdout } = useStdout();
  useInsertionEffect(() => {
    if (stdout instanceof Canvas) stdout.place(placed);
  });
  useLayoutEffect(() => {
    if (stdout instanceof Canvas) stdout.settle();
  });
}
