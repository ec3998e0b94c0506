// What a visit needs and what it is made of, step by step, through the forms as a person would.
// Products, places and people are invented.

import { act, form } from './acts.js';

const NOTHING = (names) => Object.fromEntries(names.map((name) => [`${name}.nothing`, true]));

// Numbers of labels, as they are copied and read back. A wind limit that every test keeps.
const LABELS = {
  granule: {
    product: 'Granular Example 0.2',
    numbers: {
      rate_least: '2', 'rate_least.unit': 'lb/1000 ft2', rate_most: '3', 'rate_most.unit': 'lb/1000 ft2',
      season_most: '9', 'season_most.unit': 'lb/1000 ft2', wind_most: '10', 'wind_most.unit': 'mph',
      keep_off_until_dry: 'yes', watering_in: 'nothing',
      repeat_after: '30', 'repeat_after.unit': 'days',
      ...NOTHING(['rain_free', 'temperature_least', 'temperature_most', 'keep_off_wait']),
    },
  },
  foliar_spray: {
    product: 'Spray Example 7.9',
    numbers: {
      rate_least: '0.5', 'rate_least.unit': 'fl oz/1000 ft2', rate_most: '1', 'rate_most.unit': 'fl oz/1000 ft2',
      carrier_least: '2', 'carrier_least.unit': 'gal/1000 ft2',
      season_most: '4', 'season_most.unit': 'fl oz/1000 ft2', wind_most: '10', 'wind_most.unit': 'mph',
      keep_off_until_dry: 'yes', watering_in: 'nothing',
      repeat_after: '30', 'repeat_after.unit': 'days',
      ...NOTHING(['rain_free', 'temperature_least', 'temperature_most', 'keep_off_wait']),
    },
  },
};

// Copies a label, with `other` numbers if need be, and reads them back; gives its address.
export async function addLabel(page, method, other = {}) {
  const { origin } = new URL(page.url());
  const { product } = LABELS[method];
  const numbers = { ...LABELS[method].numbers, ...other };
  for (const name of Object.keys(other)) delete numbers[`${name}.nothing`];
  await page.goto(`${origin}/things/labels/new`);
  await act(page, 'add', { product, registration: '00000-0', method });
  const label = new URL(page.url()).pathname.replace(/\/edit$/, '');
  const offered = await page.$$eval('main [name]', (fields) => fields.map((f) => f.name));
  const only = Object.entries(numbers).filter(([name]) => offered.includes(name));
  await act(page, 'save', Object.fromEntries(only));
  await page.goto(`${origin}${label}/read-back`);
  const asked = await page.$$eval('main [name]', (fields) => fields.map((f) => f.name));
  const again = Object.entries(numbers).filter(([name]) => asked.includes(name));
  await act(page, 'agree', { how: 'alone', ...Object.fromEntries(again) });
  return label;
}

// A yard with one section of 60 ft by 40 ft; gives its address.
export async function addYard(page, name = 'Corner lot') {
  const { origin } = new URL(page.url());
  await page.goto(`${origin}/yards/new`);
  await act(page, 'add', { name, address: '1 Example Lane' });
  const [yard] = /\/yards\/[0-9a-f-]{36}/.exec(page.url());
  await page.goto(`${origin}${yard}/sections/new?shape=rectangle`);
  await act(page, 'save', { name: 'Front', length: '60', width: '40' });
  return yard;
}

// Opens a visit on a yard; gives its address.
export async function openVisit(page, yard, tapped) {
  const { origin } = new URL(page.url());
  if (new URL(page.url()).pathname !== yard) await page.goto(origin + yard);
  await act(page, 'visit', tapped ? {} : { pest: 'white grub' }, { tapped });
  return new URL(page.url()).pathname;
}

// Goes to a step of the visit.
export async function toStep(page, visit, step = '') {
  await page.goto(`${new URL(page.url()).origin}${visit}${step && `/${step}`}`);
}

export const COUNT = { method: 'sod', across: '12', count1: '9', count2: '12' };

// What is set for a product of each kind, and what is put on.
export const PLANS = {
  granule: { rate: '2.5', holds: '20', vessel: '4', passes: '1', swath: '5' },
  foliar_spray: { rate: '0.8', carrier: '2', holds: '4', vessel: '0.1', passes: '1', swath: '4' },
};
export const PUT_ON = {
  granule: { product: '6', when: 'now', care: ['swept', 'gloves'] },
  foliar_spray: { product: '1.9', water: '4.8', when: 'now', care: ['rinsed', 'gloves'] },
};

// A calm, mild day, as it is read and seen; nothing of it is ever filled in beforehand.
const SEEN = {
  wind1: '4', wind2: '5', wind3: '4', span: '1', gust: '6', from: '270', soil: 'fit', bloom: 'none', air: '70',
  humidity: '50', inversion: 'none',
};

const names = (page, action, more = '') => page.$$eval(
  `main form:has([name="do"][value="${action}"])${more} [name]`,
  (fields) => [...new Set(fields.map((f) => f.name))],
);

// Answers every row of the walk round the yard.
export async function walkRound(page) {
  const rows = (await names(page, 'walk')).filter((name) => !['do', 'key', 'once'].includes(name));
  await act(page, 'walk', Object.fromEntries(rows.map((row) => [row, 'none'])));
}

// Reads and looks at what is asked for.
export async function readSky(page) {
  const asked = await names(page, 'seen', ':has([name="key"][value="missing"])');
  const fields = Object.entries(SEEN).filter(([name]) => asked.includes(name));
  await act(page, 'seen', Object.fromEntries(fields), { key: 'missing' });
}

// Lets it be judged, takes what is not known upon oneself by name, and starts.
export async function start(page, tapped) {
  // It was judged with the last reading where that was all that was missing.
  if (!(await form(page, 'start').count())) await act(page, 'check', {}, { tapped });
  const unknown = (await names(page, 'start')).filter((name) => name.startsWith('ack.'));
  await act(page, 'start', Object.fromEntries(unknown.map((name) => [name, true])), { tapped });
}
