// One day of one column, hour by hour: where energy came from and went to, and the limit that bound.
import { byId, el, bar, column } from './dom.js';
import { ask, lastWins } from './api.js';
import { state, asked } from './state.js';
import { day as dayWords, kwh, limits } from './words.js';

const kinds = [
  ['solarToHouseKwh', 'sun → house', 'sun'], ['solarToCellsKwh', 'sun → battery', 'sun'], ['solarToGridKwh', 'sun → sold', 'sun'], ['solarLostKwh', 'sun, lost', 'lost'],
  ['cellsToHouseKwh', 'battery → house', 'bat'], ['cellsToGridKwh', 'battery → sold', 'bat'], ['gridToCellsKwh', 'bought → battery', 'net'], ['boughtKwh', 'bought in all', 'net'],
];
let date = '', which = 1, hour = 18, told = null;

const load = lastWins(async () => {
  told = await ask('day', asked({ date, column: Math.min(which, state.answer.comparison.columns.length - 1) }));
  draw();
});

export function home() {
  const from = state.summary.from;
  date = `${from.slice(0, 4)}-07-15` >= from && `${from.slice(0, 4)}-07-15` <= state.summary.to ? `${from.slice(0, 4)}-07-15` : from;
  told = null;
}

export function follow() { return load(); }

function shift(days) {
  const [y, m, d] = date.split('-').map(Number);
  const next = new Date(Date.UTC(y, m - 1, d + days)).toISOString().slice(0, 10);
  if (next < state.summary.from || next > state.summary.to) return;
  date = next;
  byId('day-date').value = date;
  load();
}

function build(place) {
  place.replaceChildren(
    el('div', { class: 'day-tools' },
      el('div', { class: 'ask' }, el('label', { for: 'day-column' }, 'Column'), el('select', { id: 'day-column', onchange: (e) => { which = Number(e.target.value); load(); } })),
      el('div', { class: 'ask' }, el('label', { for: 'day-date' }, 'Day'), el('input', { type: 'date', id: 'day-date', min: state.summary.from, max: state.summary.to, value: date, onchange: (e) => { if (e.target.value) { date = e.target.value; load(); } } })),
      el('button', { type: 'button', class: 'plain', id: 'day-before', onclick: () => shift(-1) }, 'Day before'), el('button', { type: 'button', class: 'plain', id: 'day-after', onclick: () => shift(1) }, 'Day after')),
    el('div', { class: 'slide' }, el('label', { for: 'day-hour' }, 'Hour'), el('output', { for: 'day-hour', id: 'day-hour-out' }), el('input', { type: 'range', id: 'day-hour', min: 0, max: 23, step: 1, value: hour, oninput: (e) => { hour = Number(e.target.value); draw(); } })),
    el('p', { class: 'small', id: 'day-caption' }), el('div', { class: 'hours', id: 'day-hours', 'aria-hidden': 'true' }), el('p', { class: 'hour-line', id: 'day-line', 'aria-live': 'polite' }), el('div', { class: 'flows', id: 'day-flows' }), el('ul', { class: 'bounds', id: 'day-bounds', 'aria-label': 'Limits that bound in this hour' }));
}

function draw() {
  if (!byId('day-date')) build(byId('day'));
  byId('day-date').value = date;
  byId('day-column').replaceChildren(...state.answer.comparison.columns.map((c, i) => el('option', { value: String(i) }, c.name)));
  byId('day-column').value = String(Math.min(which, state.answer.comparison.columns.length - 1));
  const hours = told.hours;
  hour = Math.min(hour, hours.length - 1);
  Object.assign(byId('day-hour'), { max: String(hours.length - 1), value: String(hour) });
  const now = hours[hour], at = now.at.slice(11, 16);
  byId('day-hour-out').textContent = at;
  byId('day-hour').setAttribute('aria-valuetext', at);
  const battery = told.highestKwh > 0, top = battery ? told.highestKwh : Math.max(...hours.map((h) => h.usedKwh), 0.01);
  byId('day-caption').textContent = `${dayWords(date)}: ${battery ? `in the battery at each hour’s end, up to ${kwh(told.highestKwh)}` : 'used in each hour'}.`;
  const strip = byId('day-hours');
  strip.style.setProperty('--n', hours.length);
  strip.replaceChildren(...hours.map((h, i) => {
    const node = el('button', { type: 'button', tabindex: '-1', 'aria-pressed': String(i === hour), onclick: () => { hour = i; draw(); } });
    node.append(column((battery ? h.storedKwh : h.usedKwh) / top));
    return node;
  }));
  byId('day-line').textContent = `${at} to ${hours[hour + 1]?.at.slice(11, 16) ?? '24:00'}, ${now.period}: the house uses ${kwh(now.usedKwh)}${battery ? `; ${kwh(now.storedKwh)} are then in the battery` : ''}.`;
  const most = Math.max(0.01, ...hours.flatMap((h) => kinds.map(([k]) => h[k])));
  byId('day-flows').replaceChildren(...kinds.filter(([k]) => hours.some((h) => h[k] > 0.0005)).map(([key, words, kind]) =>
    el('div', { class: now[key] > 0.0005 ? 'flow' : 'flow nil' }, el('span', {}, words), bar(now[key] / most, kind), el('span', { class: 'n' }, kwh(now[key])))));
  const bound = Object.entries(now.limitMinutes);
  byId('day-bounds').replaceChildren(...(bound.length ? bound.map(([name, minutes]) => el('li', {}, `${limits[name] ?? name}, ${minutes} min`)) : [el('li', {}, 'no limit bound')]));
}
