import { Box, Text } from 'ink';
import { memo } from 'react';
import { columns } from '../base/columns.ts';
import { blank, cleanRow, type Row, type Span } from './row.ts';
import { greyLook, type Theme } from './theme.ts';

/** What is drawn: `width` by `height` is the whole room, in columns and rows. */
interface LinesProps {
  readonly rows: readonly Row[];
  readonly width: number;
  readonly height: number;
  readonly theme: Theme;
}

/**
 * Draws exactly `height` rows, none wider than `width`: missing rows are empty, rows too many are left out at the end. Text from
 * outside cannot escape: control characters come out as marks.
 */
export function Lines({ rows, width, height, theme }: LinesProps) {
  const shown = Array.from({ length: Math.max(0, height) }, (_, at) => cleanRow(rows[at] ?? blank));
  return (
    <Box flexDirection="column" width={width} height={height} overflow="hidden">
      {shown.map((row, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a row is the place on the screen, whatever stands in it
        <Line key={at} row={row} theme={theme} />
      ))}
    </Box>
  );
}

interface LineProps {
  readonly row: Row;
  readonly theme: Theme;
}

/** One row of the screen; an unchanged row costs a comparison only. An empty text would have no height, so it is a space. */
const Line = memo(function Line({ row, theme }: LineProps) {
  return (
    <Text wrap="truncate">
      {row.length === 0
        ? ' '
        : row.map((part, at) => {
            const { look, text } = looked(part, theme);
            return (
              // biome-ignore lint/suspicious/noArrayIndexKey: a span is the place in its row
              <Text key={at} {...look}>
                {text}
              </Text>
            );
          })}
    </Text>
  );
}, isSameLine);

function looked({ text, style = 'plain', greys }: Span, theme: Theme) {
  const grey = greys && greyLook(theme, greys);
  return grey ? { look: grey, text: '▀'.repeat(columns(text)) } : { look: theme[style], text };
}

function isSameLine(before: LineProps, after: LineProps): boolean {
  return (
    before.theme === after.theme &&
    before.row.length === after.row.length &&
    before.row.every((part, at) => isSameSpan(part, after.row[at]))
  );
}

const isSameSpan = (one: Span, other: Span | undefined): boolean =>
  one.text === other?.text &&
  one.style === other.style &&
  one.greys?.over === other.greys?.over &&
  one.greys?.under === other.greys?.under;
