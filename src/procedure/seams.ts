import { toDecimal } from '../measure/decimal.ts';
import { readNumber } from '../measure/number.ts';
import { convert, findUnit, unitKind } from '../measure/unit.ts';
import { cut, originOf, type Passage } from './passage.ts';
import type { SeamsFact } from './procedure.ts';
import type { Reading } from './reading.ts';

/**
 * Reads `D1 D2, stitch 301 at 4.0 mm through 1.8 mm, visible` and `A-B, stitch 301, joins A-aft to B-front, ease 2 mm`: ids first, then what
 * is known of the stitch and of the edges it joins, parted by commas.
 */
export function readSeams(passage: Passage, reading: Reading): SeamsFact {
  let ids: readonly string[] = [];
  let stitch: string | null = null;
  let stitchLength: string | null = null;
  let thickness: string | undefined;
  let visible = false;
  let ease: string | null = null;
  const joins: (readonly [string, string])[] = [];
  let at = 0;
  for (const [index, part] of passage.text.split(/,(?=\s|$)/).entries()) {
    const words = part.trim();
    const found = /^stitch (\d{3}(?:\.\d{3})*)(?: at (.+?))?(?: through (.+))?$/i.exec(words);
    const [length, through] = [found?.[2], found?.[3]].map((said) => (said === undefined ? null : readLength(said)));
    const join = /^joins? ([\p{L}\p{N}][\p{L}\p{N}_-]*) to ([\p{L}\p{N}][\p{L}\p{N}_-]*)$/iu.exec(words);
    const eased = joins.length === 0 ? undefined : readLength(/^ease (.+)$/i.exec(words)?.[1] ?? '');
    if (join?.[1] && join[2]) joins.push([join[1], join[2]]);
    else if (eased !== undefined) ease = eased;
    else if (index === 0 && /^[\p{L}\p{N}][\p{L}\p{N}_-]*(?: +[\p{L}\p{N}][\p{L}\p{N}_-]*)*$/u.test(words))
      ids = words.split(/ +/);
    else if (found && length !== undefined && through !== undefined) {
      stitch = found[1] ?? null;
      stitchLength = length;
      thickness = through ?? undefined;
    } else if (/^visible$/i.test(words)) visible = true;
    else if (!/^(?:not visible|hidden)$/i.test(words)) {
      reading.note({
        rule: 'seams-unreadable',
        at: originOf(cut(passage, at + part.length - part.trimStart().length), 0),
        message: 'This part of the seams is shown, but the program makes nothing of it.',
        found: words,
        mend: 'Write the ids first, then "stitch 301 at 4.0 mm" (also "through 1.8 mm"), "visible", "joins A-aft to B-front" and "ease 2 mm", parted by commas.',
        severity: 'warning',
      });
    }
    at += part.length + 1;
  }
  const joined = joins.length === 0 ? {} : { joins };
  return {
    text: passage.text.trim(),
    ids,
    stitch,
    stitchLength,
    ...(thickness === undefined ? {} : { thickness }),
    visible,
    ...joined,
    ...(ease === null ? {} : { ease }),
  };
}

function readLength(text: string): string | undefined {
  const [, digits = '', unitText = ''] = /^([\d.,/ ½¼¾]+?) ?([^\d\s]+)$/.exec(text) ?? [];
  const unit = findUnit(unitText);
  const number = readNumber(digits);
  if (unit === undefined || unitKind(unit) !== 'length' || !number.ok || number.value.lte(0)) return undefined;
  return toDecimal(convert(number.value, unit, 'mm'));
}
