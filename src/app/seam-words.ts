import { fromDecimal, toDecimalAt } from '../measure/decimal.ts';
import { stitchCount } from '../measure/stitch-count.ts';
import type { SeamsFact } from '../procedure/procedure.ts';
import type { Say } from '../words/say.ts';

/** `Seams: D1 D2, stitch 301 at 4.0 mm (25 st/100mm, 6.3 st/25mm, 6.4 spi)`: the stitches in each length that gauges count over. */
export function seamsSaid(say: Say, { text, stitchLength }: SeamsFact): string {
  const seams = say('Seams: {seams}', { seams: text });
  const counts = stitchesSaid(stitchLength);
  return counts === undefined ? seams : `${seams} (${counts})`;
}

/** `25 st/100mm, 6.3 st/25mm, 6.4 spi` for a stitch of 4 mm; undefined where no length is known. */
export function stitchesSaid(stitchLength: SeamsFact['stitchLength']): string | undefined {
  const length = stitchLength === null ? undefined : fromDecimal(stitchLength);
  if (!length || length.lte(0)) return undefined;
  const { in100mm, in25mm, inInch } = stitchCount(length);
  const counts = [
    [in100mm, 'st/100mm'],
    [in25mm, 'st/25mm'],
    [inInch, 'spi'],
  ] as const;
  return counts.map(([count, unit]) => `${toDecimalAt(count, 1)} ${unit}`).join(', ');
}
