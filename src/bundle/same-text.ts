import type { Digest } from '../base/brand.ts';
import type { Release, ReleasedSheet } from './room.ts';

interface Text {
  readonly digest: Digest;
  readonly pictures: Release['pictures'];
  readonly sheets?: readonly Pick<ReleasedSheet, 'language' | 'digest'>[];
}

/** Whether a release is of just this text, with just these pictures and sheets in other languages. */
export const isSameText = (release: Release | undefined, { digest, pictures, sheets = [] }: Text): boolean =>
  release !== undefined &&
  release.digest === digest &&
  sameList(release.pictures, pictures, (a, b) => a.address === b.address && a.digest === b.digest) &&
  sameList(release.sheets, sheets, (a, b) => a.language === b.language && a.digest === b.digest);

const sameList = <T, U>(a: readonly T[], b: readonly U[], isSame: (a: T, b: U) => boolean): boolean =>
  a.length === b.length &&
  a.every((each, at) => {
    const other = b[at];
    return other !== undefined && isSame(each, other);
  });
