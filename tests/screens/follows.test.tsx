import { render } from 'ink-testing-library';
import { expect, test } from 'vitest';
import { Screen } from '../../src/screens/screen.tsx';
import { withoutColour } from '../../src/widgets/theme.ts';
import { smallProcedure, workroom } from '../app/workroom.ts';

test('the screen follows the store: each piece of news is drawn, and nothing after it is left', async () => {
  const room = await workroom(smallProcedure);
  const program = await room.program();
  const { lastFrame, unmount } = render(<Screen store={program} theme={withoutColour} />);
  expect(lastFrame()).toContain('Who is here?');
  program.tell({ news: 'sign on', who: 'Ines' });
  program.tell({ news: 'ticket', ticket: 'B-1' });
  await program.settled();
  await expect.poll(lastFrame).toMatch(/› Pieces/);
  unmount();
  program.tell({ news: 'move', move: { move: 'order', order: 'leave' } });
  await program.settled();
  expect(lastFrame()).not.toContain('Scan or type a ticket');
});
