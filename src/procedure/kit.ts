import type { Problem } from '../base/collect-findings.ts';
import type { Field } from './front-matter.ts';
import type { KitPiece } from './procedure.ts';

type Note = (problem: Problem) => void;

/** Reads `piece: words`, with `× n` where there are several and `(left)` or `(right)` for one of a pair. */
export function readKit(fields: readonly Field[], note: Note): readonly KitPiece[] {
  const read = fields.flatMap((field) => {
    const piece = readPiece(field);
    if (piece) return [{ piece, field }];
    note({
      rule: 'kit-unreadable',
      at: field.at,
      message: 'A piece of the kit is its name, a colon and some words.',
      found: `${field.key}: ${field.text}`.replaceAll('\u0000', '…'),
      mend: `Write it like "F-L: aft corner patch (left)" or "ST: strap × 2".`,
    });
    return [];
  });
  for (const { piece, field } of read) {
    if (piece.side === null) continue;
    const other = piece.side === 'left' ? 'right' : 'left';
    const pair = read.find((one) => one.piece.side === other && one.piece.words === piece.words);
    if (pair?.piece.count === piece.count) continue;
    note({
      rule: 'kit-pair',
      at: field.at,
      message: `${piece.id} is a ${piece.side} piece, but no ${other} piece has the same words and number.`,
      found: field.text,
      mend: `Add its other half: ${piece.words} (${other})${piece.count > 1 ? ` × ${piece.count}` : ''}.`,
    });
  }
  return read.map(({ piece }) => piece);
}

function readPiece({ key, text }: Field): KitPiece | undefined {
  if (!/^[\p{L}\p{N}][\p{L}\p{N}._-]*$/u.test(key) || text.includes('\u0000') || text.includes('\n')) return undefined;
  let words = text;
  let count = 1;
  let side: KitPiece['side'] = null;
  const times = /\s*(?:×|\b[xX])\s*(\d+)(?=\s*(?:\((?:left|right)\))?\s*$)/i.exec(words);
  if (times) {
    count = Number(times[1]);
    words = words.slice(0, times.index) + words.slice(times.index + times[0].length);
  }
  const hand = /\s*\((left|right)\)\s*$/i.exec(words);
  if (hand) {
    side = hand[1]?.toLowerCase() === 'left' ? 'left' : 'right';
    words = words.slice(0, hand.index);
  }
  const unread = /×|\((?:left|right|l|r)\b|\b[xX]\s*\w+\s*$/i.test(words) && !/^\w*[xX]\w*$/.test(words);
  if (words.trim() === '' || count < 1 || count > 9999 || unread) return undefined;
  return { id: key, words: words.trim(), count, side };
}
