import { Box, Text } from 'ink';
import { type ReactNode, useEffect, useState } from 'react';
import type { Key } from '../../src/keys/key.ts';
import { giveBack } from '../../src/terminal/give-back.ts';
import { mount } from '../../src/terminal/mount.tsx';
import { openTerminal } from '../../src/terminal/open-terminal.ts';
import { useSize } from '../../src/terminal/use-size.ts';

// A small program on the real terminal code: it fills the screen, shows the last keys, and ends or breaks when told to.

const terminal = openTerminal(process);
let say: (words: string) => void = () => {};
let draw: (what: 'frame' | 'broken') => void = () => {};

const exit = (code: number): never => process.exit(code);
giveBack({
  terminal,
  exit,
  patience: 300,
  beforeEnd: async ({ why }) => {
    if (process.env.SAMPLE_HANGS) await new Promise(() => {});
    process.stderr.write(`paused by ${why}\n`);
  },
});

const spell = (key: Key): string =>
  'text' in key ? `${key.key}:${key.text}` : key.key === 'enter' ? `enter:${key.held}` : key.key;

terminal.onKeys(
  (key) => {
    if (key.key === 'ctrl-c') {
      terminal.close();
      exit(0);
    } else if (key.key === 'f1') throw new Error('crashed on purpose');
    else if (key.key === 'f2') void Promise.reject(new Error('rejected on purpose'));
    else if (key.key === 'f3') draw('broken');
    else if (key.key === 'f4') terminal.bell();
    else say(spell(key));
  },
  () => 'commands',
);

function Broken(): ReactNode {
  throw new Error('broken picture');
}

function Sample(): ReactNode {
  const { columns, rows } = useSize();
  const [heard, setHeard] = useState<readonly string[]>([]);
  const [what, setWhat] = useState<'frame' | 'broken'>('frame');
  useEffect(() => {
    say = (words) => setHeard((before) => [...before, words].slice(-6));
    draw = setWhat;
  }, []);
  if (what === 'broken') return <Broken />;
  return (
    <Box flexDirection="column" width={columns} height={rows}>
      <Text>{`top ${columns}x${rows} ${'-'.repeat(columns)}`.slice(0, columns)}</Text>
      <Text>{heard.join(' ').slice(0, columns)}</Text>
      <Box flexGrow={1} />
      <Text>{`${'='.repeat(columns - 7)} bottom`}</Text>
    </Box>
  );
}

mount(<Sample />, terminal);
