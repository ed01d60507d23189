// Words and numbers: the page prints what the server worked out and computes nothing.
const whole = new Map();
const exact = new Map();
const number = (digits) => new Intl.NumberFormat('en-US', { maximumFractionDigits: digits });
const shortNumber = number(1), kwhNumber = number(2);

export function money(amount, currency) {
  if (amount === null || amount === undefined) return '';
  if (!whole.has(currency)) whole.set(currency, new Intl.NumberFormat('en-US', { style: 'currency', currency, maximumFractionDigits: 0 }));
  return whole.get(currency).format(amount).replace('-', '−');
}

export function cents(amount, currency) {
  if (!exact.has(currency)) exact.set(currency, new Intl.NumberFormat('en-US', { style: 'currency', currency, minimumFractionDigits: 2 }));
  return exact.get(currency).format(amount).replace('-', '−');
}

export const hours = (h) => `${shortNumber.format(h)} h`;
export const kwh = (x) => `${kwhNumber.format(x)} kWh`;
export const plain = (x) => number(6).format(x).replace('-', '−');
export const share = (x) => `${shortNumber.format(x * 100)} %`;

export function when(stamp) {
  const [date, time] = stamp.split('T');
  return `${day(date)}, ${time.slice(0, 5)}`;
}

export function day(date) {
  const [y, m, d] = date.split('-').map(Number);
  return new Date(Date.UTC(y, m - 1, d)).toLocaleDateString('en-US', { timeZone: 'UTC', weekday: 'short', month: 'short', day: 'numeric', year: 'numeric' });
}

export function month(from, to) {
  const [y, m, d] = from.split('-').map(Number);
  if (d !== 1) return `${from} to ${to}`;
  return new Date(Date.UTC(y, m - 1, 1)).toLocaleDateString('en-US', { timeZone: 'UTC', month: 'long', year: 'numeric' });
}

export const limits = {
  floor: 'battery at its reserve or empty', full: 'battery full while the sun gave more', Pd: 'battery at its most power out', Pc: 'battery at its most power in',
  Pinv: 'inverter at its rating', OUT: 'inverters’ breaker', BUS: 'busbar guard', IMPORT: 'grid-current cap', importTarget: 'import held at its target', EXPORT: 'export at its cap',
  Psol: 'solar inputs clipping', overload: 'house above the grid-current cap', '1:1': 'solar inverter too large for the battery off the grid', dark: 'dark for want of energy', trip: 'inverter tripped on overload',
};

export const causes = {
  shiftedIntoPeak: 'from the battery in the dearest hours', usedAtHome: 'from the battery at other hours', soldFromBattery: 'sold from the battery', forgoneCredit: 'solar kept instead of sold',
  boughtToCharge: 'bought to charge', lossesAndStandby: 'losses and standby', demand: 'lower demand charges', tiers: 'cheaper steps of tiers', events: 'less bought in events', minimumAndTaxes: 'minimum bill, taxes and fixed charges',
};

export const events = {
  full: 'the battery is full', overloaded: 'the house asks for more power than the battery gives', empty: 'the battery is empty', tripped: 'the inverter trips', servedAgain: 'all that is kept is served again',
  generatorStarts: 'the generator starts', generatorStops: 'the generator stops',
};

export const standings = { within: 'within the rule', beyond: 'beyond the rule', 'not-in-edition': 'not in this edition', unknown: 'a fact is missing' };
export const answers = { yes: 'yes', no: 'no', unknown: 'can not be told from these data' };
export const unserved = { energy: 'the battery is empty', dischargeRate: 'the battery’s most power', inverter: 'the inverter’s rating', inverterBreaker: 'the inverters’ breaker', busbar: 'the busbar', trip: 'a trip' };
