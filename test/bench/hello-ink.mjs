// The smallest Ink program, from node_modules as they come: what the start of the coach is compared with.
import { render, Text } from 'ink';
import { createElement } from 'react';

render(createElement(Text, null, 'hello from ink'));
