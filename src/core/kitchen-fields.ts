/** The kitchen as questions, in the order they are listed, and those that are asked at the first start. */
import type { Kitchen } from './kitchen.ts';
import {
  type KitchenField,
  markedMaximum,
  oneOf,
  orUnknown,
  quantity,
  workingPressure,
} from './kitchen-field.ts';
import {
  formatAltitude,
  formatLength,
  formatMass,
  formatPower,
  formatPressure,
  formatTemperature,
  formatVolume,
} from './quantity-format.ts';
import {
  parseAltitude,
  parseLength,
  parseMass,
  parsePower,
  parsePressure,
  parseTemperature,
  parseVolume,
} from './quantity.ts';

const UNIT_SETS: Readonly<Record<string, Kitchen['units']>> = {
  metric: { mass: 'kg', volume: 'L', pressure: 'kPa', temperature: 'C', length: 'cm' },
  'metric psi': { mass: 'kg', volume: 'L', pressure: 'psi', temperature: 'C', length: 'cm' },
  'metric bar': { mass: 'kg', volume: 'L', pressure: 'bar', temperature: 'C', length: 'cm' },
  american: { mass: 'lb', volume: 'qt', pressure: 'psi', temperature: 'F', length: 'in' },
};

const units: KitchenField = {
  name: 'units',
  of: 'units',
  asks: `Units (${Object.keys(UNIT_SETS).join(', ')})`,
  show: kitchen =>
    Object.entries(UNIT_SETS).find(([, set]) => JSON.stringify(set) === JSON.stringify(kitchen.units))?.[0] ??
    'mixed',
  read: text => {
    const key = text.trim().toLowerCase();
    const set = Object.hasOwn(UNIT_SETS, key) ? UNIT_SETS[key] : undefined;
    return set
      ? { ok: true, value: { units: set } }
      : { ok: false, expected: `one of: ${Object.keys(UNIT_SETS).join(', ')}` };
  },
};

type Alert = 'bell' | 'terminal' | 'speech';
const alert = (name: string, asks: string, key: Alert): KitchenField => ({
  name,
  asks,
  of: 'alerts',
  show: kitchen => (kitchen.alerts[key] ? 'yes' : 'no'),
  read: (text, kitchen) => {
    const said = text.trim().toLowerCase();
    if (said !== 'yes' && said !== 'no') return { ok: false, expected: 'yes or no' };
    return { ok: true, value: { alerts: { ...kitchen.alerts, [key]: said === 'yes' } } };
  },
});

const clock = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
const quiet: KitchenField = {
  name: 'quiet',
  of: 'alerts',
  asks: 'Quiet hours, in which only danger rings (22:00-07:00, or none)',
  show: ({ alerts: { quietFromMin, quietToMin } }) =>
    quietFromMin === quietToMin ? 'none' : `${clock(quietFromMin)}-${clock(quietToMin)}`,
  read: (text, kitchen) => {
    if (/^none$/i.test(text.trim())) {
      return { ok: true, value: { alerts: { ...kitchen.alerts, quietFromMin: 0, quietToMin: 0 } } };
    }
    const match = /^\s*(\d{1,2}):(\d{2})\s*(?:-|–|to)\s*(\d{1,2}):(\d{2})\s*$/.exec(text);
    const [fromH = 99, fromM = 99, toH = 99, toM = 99] = (match ?? []).slice(1).map(Number);
    if (fromH > 23 || toH > 23 || fromM > 59 || toM > 59)
      return { ok: false, expected: 'two times such as 22:00-07:00, or none' };
    const alerts = { ...kitchen.alerts, quietFromMin: fromH * 60 + fromM, quietToMin: toH * 60 + toM };
    return { ok: true, value: { alerts } };
  },
};

/** A number, with the currency before or behind it or without. */
const PRICE = /^\s*([^\d\s.,-]*)\s*(\d+(?:[.,]\d+)?)\s*([^\d\s]*)\s*$/u;
/** A currency sign, a code of three letters (ISO 4217), or what the person calls their own. */
const isCurrency = (said: string, own: string): boolean =>
  said === '' || said === own || /^(\p{Sc}|[A-Za-z]{3})$/u.test(said);

type Price = Exclude<keyof Kitchen['money'], 'currency'>;
const price = (name: string, asks: string, key: Price): KitchenField => ({
  name,
  asks,
  of: 'money',
  show: ({ money }) => (money[key] === 0 ? 'not said' : `${money[key].toFixed(2)} ${money.currency}`.trim()),
  read: (text, kitchen) => {
    const [, before = '', number = '', after = ''] = PRICE.exec(text) ?? [];
    const value = number === '' ? Number.NaN : Number(number.replace(',', '.'));
    const named = [before, after].every(sign => isCurrency(sign, kitchen.money.currency));
    if (!named || !(value >= 0 && value <= 100_000)) {
      return { ok: false, expected: 'a price such as 1.80, or 0 for not said' };
    }
    return { ok: true, value: { money: { ...kitchen.money, [key]: value } } };
  },
});
const currency: KitchenField = {
  name: 'currency',
  of: 'money',
  asks: 'Currency, as you write it',
  show: ({ money }) => money.currency || 'not said',
  read: (text, kitchen) => {
    const said = text.trim();
    if (!/^[\p{L}\p{Sc}.]{0,5}$/u.test(said)) {
      return { ok: false, expected: 'a sign or code of at most five letters, such as EUR' };
    }
    return { ok: true, value: { money: { ...kitchen.money, currency: said } } };
  },
};

const pressureOf = (kPa: number, { units: u }: Kitchen): string => formatPressure(kPa, u);
const volumeOf = (litres: number, { units: u }: Kitchen): string => formatVolume(litres, u);
const lengthOf = (metres: number, { units: u }: Kitchen): string => formatLength(metres, u);

export const KITCHEN_FIELDS: readonly KitchenField[] = [
  units,
  quantity('altitude', 'How high above the sea do you live?', 'altitudeM', parseAltitude, (m, k) =>
    formatAltitude(m, k.units),
  ),
  orUnknown(
    'air-pressure',
    'Local air pressure, not reduced to sea level',
    'stationKPa',
    parsePressure,
    pressureOf,
  ),
  quantity('room', 'Room temperature', 'roomC', parseTemperature, (c, k) => formatTemperature(c, k.units)),
  quantity('pot', 'Volume of the open pot', 'potL', parseVolume, volumeOf),
  quantity('cooker', 'Volume of the pressure cooker', 'cookerL', parseVolume, volumeOf),
  quantity('cooker-diameter', 'Inner diameter of the cooker', 'cookerInnerDiameterM', parseLength, lengthOf),
  quantity('cooker-height', 'Inner height of the cooker', 'cookerInnerHeightM', parseLength, lengthOf),
  quantity('cooker-weight', 'Weight of the empty cooker', 'cookerMassKg', parseMass, (kg, k) =>
    formatMass(kg, k.units),
  ),
  oneOf('gauge', 'What shows the pressure: dial or weight?', 'gauge', ['dial', 'weight']),
  markedMaximum('marked-maximum', 'Highest pressure marked on the cooker'),
  workingPressure('working-pressure', 'Usual working pressure, or the mark on the weight'),
  quantity('least-water', "Least water, by the maker's manual", 'minimumWaterL', parseVolume, volumeOf),
  oneOf('burner', 'Burner: gas, electric or induction?', 'burner', ['gas', 'electric', 'induction']),
  quantity('burner-power', 'Power of the burner', 'burnerW', parsePower, watts => formatPower(watts)),
  orUnknown('hob-limit', 'Greatest load on the hob, by its manual', 'hobLimitKg', parseMass, (kg, k) =>
    formatMass(kg, k.units),
  ),
  alert('bell', 'Ring the terminal bell?', 'bell'),
  alert('signals', 'Window title, progress and notifications?', 'terminal'),
  alert('speech', 'Speak alerts when the system can?', 'speech'),
  quiet,
  currency,
  price('price-grain', 'Price of a kilogram of dry grain', 'grainPerKg'),
  price('price-container', 'Price of one bag or jar lid', 'containerEach'),
  price('price-culture', 'Price of the culture for one batch', 'culturePerBatch'),
  price('price-energy', 'Price of the energy for one batch', 'energyPerBatch'),
  price('price-bought', 'Price of one bought, filled container', 'boughtEach'),
  price('price-gear', 'Price of the gear bought for this', 'gear'),
];

/** Whether this value is assumed: the person never said the part of the kitchen it belongs to. */
export const isAssumed = (field: KitchenField, assumed: ReadonlySet<keyof Kitchen>): boolean =>
  assumed.has(field.of);

/** The field of that name; null when there is none. */
export const fieldNamed = (name: string): KitchenField | null =>
  KITCHEN_FIELDS.find(field => field.name === name) ?? null;

/** Asked once, at the first start; everything else waits in the kitchen until it is wanted. */
export const FIRST_QUESTIONS: readonly string[] = [
  'units',
  'altitude',
  'pot',
  'cooker',
  'gauge',
  'marked-maximum',
  'working-pressure',
  'least-water',
  'burner',
];
