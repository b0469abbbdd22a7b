import { ok, type Result, refuse } from '../../base/result.ts';

/** A group code and its value: two lines of a DXF file. `line` is that of the code, from 1. */
export interface Tag {
  readonly code: number;
  readonly value: string;
  readonly line: number;
}

/**
 * Reads an ASCII DXF file into its pairs of lines. Refused, with the way out, as `dxf-binary`, `dxf-large`, `dxf-none` (something else) or
 * `dxf-cut-off`.
 *
 * The libraries that read DXF, as they were tried, drop what they do not know without a count, and one never ends on a polyline without its
 * end; others may not be used together with this program's licence. The pairs of lines are the whole of the format.
 */
export function readTags(text: string): Result<readonly Tag[]> {
  if (text.includes('\0'))
    return refuse('dxf-binary', 'This is no DXF file of text; export it as ASCII DXF, release 12.');
  if (text.length > LARGEST) {
    return refuse(
      'dxf-large',
      `This file has more than ${LARGEST / 1_000_000} million characters; export fewer pieces at once.`,
    );
  }
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n?|\n/);
  while (lines.length > 0 && lines.at(-1)?.trim() === '') lines.pop();
  const tags: Tag[] = [];
  for (let at = 0; at < lines.length; at += 2) {
    const code = (lines[at] ?? '').trim();
    const value = lines[at + 1];
    if (!/^-?\d{1,4}$/.test(code)) {
      return refuse(
        'dxf-none',
        `Line ${at + 1} should be the number of a group and is not; export the file as ASCII DXF, release 12.`,
      );
    }
    if (value === undefined) break;
    // 999 is a remark.
    if (code !== '999') tags.push({ code: Number(code), value: value.trim(), line: at + 1 });
  }
  const [first, last] = [tags[0], tags.at(-1)];
  if (first?.code !== 0 || first.value !== 'SECTION') {
    return refuse('dxf-none', 'This file does not begin like a DXF file; export it as ASCII DXF, release 12.');
  }
  return last?.code === 0 && last.value === 'EOF' ? ok(tags) : refuse('dxf-cut-off', CUT_OFF);
}

const LARGEST = 20_000_000;
const CUT_OFF =
  'This file ends before its end (EOF), so nobody knows what is missing; export it again, or send it as a file.';
