import type { Digest } from '../base/brand.ts';
import { placeOf } from '../base/source.ts';
import { inlineSpans, withoutCode } from './inline-spans.ts';
import { cut, join, originOf, type Passage } from './passage.ts';
import { plainText } from './plain-text.ts';
import type { Picture, Procedure } from './procedure.ts';
import type { Reading } from './reading.ts';

export interface WithoutPictures {
  readonly passage: Passage;
  readonly pictures: readonly Picture[];
}

/** The procedure with the digest of each picture that is known, by its address. */
export function withDigests(
  procedure: Procedure,
  known: readonly { readonly address: string; readonly digest: Digest }[],
): Procedure {
  const digests = new Map(known.map(({ address, digest }) => [address, digest]));
  const drawn = (picture: Picture): Picture => {
    const digest = digests.get(picture.address);
    return digest === undefined ? picture : { ...picture, digest };
  };
  return { ...procedure, steps: procedure.steps.map((step) => ({ ...step, pictures: step.pictures.map(drawn) })) };
}

/** Takes the pictures out of a passage: `![words](address#ids)`. */
export function takePictures(passage: Passage, reading: Reading): WithoutPictures {
  if (!passage.text.includes('![')) return { passage, pictures: [] };
  const signs = withoutCode(passage.text, inlineSpans(passage.text).codes);
  const pictures: Picture[] = [];
  const rest: Passage[] = [];
  let at = 0;
  for (const { 0: found, 1: alt = '', 2: address, index } of signs.matchAll(PICTURE)) {
    const origin = originOf(passage, index);
    if (address === undefined) {
      noteUnreadable(found, origin, reading);
      continue;
    }
    rest.push(cut(passage, at, index));
    at = index + found.length;
    pictures.push(readPicture(alt, address.replace(/^<|>$/g, ''), origin, reading));
  }
  return pictures.length === 0 ? { passage, pictures } : { passage: join([...rest, cut(passage, at)]), pictures };
}

/** The address is optional so that a picture without a readable one is seen too. Lengths are bounded to keep the search linear. */
const PICTURE =
  /(?<!\\)!\[([^\]\n]{0,300})\](?:\([ ]{0,3}(<[^<>\n]{1,500}>|[^\s()<>]{1,500})(?:[ ]{1,3}"[^"\n]{0,200}")?[ ]{0,3}\))?/g;

function noteUnreadable(found: string, at: number, { note }: Reading): void {
  note({
    rule: 'picture-unreadable',
    at,
    message: 'This looks like a picture, but its address cannot be read.',
    found,
    mend: 'Write ![what it shows](../media/lining.svg#D1,D2), with no spaces in the address.',
  });
}

function readPicture(alt: string, whole: string, at: number, reading: Reading): Picture {
  const hash = whole.indexOf('#');
  const address = hash === -1 ? whole : whole.slice(0, hash);
  const fragment = hash === -1 ? '' : whole.slice(hash + 1);
  const say = (rule: string, message: string, mend: string): void =>
    reading.note({ rule, at, message, found: whole, mend });
  if (address === '' || /^(?:[a-z][a-z\d+.-]*:|[\\/])/i.test(address)) {
    say(
      'picture-elsewhere',
      'A picture lies in a folder of the room.',
      'Put the file into media/ and write ../media/ and its name.',
    );
  }
  if (alt.trim() === '') {
    reading.note({
      rule: 'picture-without-words',
      at,
      message: 'This picture has no words for those who cannot see it.',
      found: whole,
      mend: 'Write what it shows between the square brackets.',
      severity: 'warning',
    });
  }
  const bringOut = fragment
    .split(',')
    .map((id) => decoded(id).trim())
    .filter((id) => id !== '');
  return { alt: plainText(alt), address, bringOut, line: placeOf(reading.source, at).line };
}

function decoded(text: string): string {
  return /^(?:[^%]|%[0-7][\da-f])*$/i.test(text) ? decodeURIComponent(text) : text;
}
