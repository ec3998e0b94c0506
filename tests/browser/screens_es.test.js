// Every screen in Spanish: see support/every_screen.js.

import { everyScreen } from './support/every_screen.js';

everyScreen('es', 200);
