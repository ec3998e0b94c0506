// Every screen in English: see support/every_screen.js.

import { everyScreen } from './support/every_screen.js';

everyScreen('en', 100);
