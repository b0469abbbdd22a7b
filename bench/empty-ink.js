import { render, Text } from 'ink';
import { createElement } from 'react';

// The least that keeps a screen open: what our own program is measured against.
render(createElement(Text, null, 'empty'), { alternateScreen: true });
setInterval(() => {}, 1000);
