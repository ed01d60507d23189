// The columns side by side: the home as it is, then each offer; every figure opens what it is made of.
import { byId, el } from './dom.js';
import { state, currency } from './state.js';
import * as why from './why.js';
import { money, hours } from './words.js';

const colour = (column, i) => (i === 0 ? 'asis' : column.batteryUnits === 1 ? 'one' : column.batteryUnits === 2 ? 'two' : 'more');

export function draw() {
  const { comparison, outage, fits } = state.answer;
  const board = byId('board');
  board.style.setProperty('--columns', comparison.columns.length);
  const focused = document.activeElement?.dataset?.figure;
  const span = state.summary.isWholeYear ? 'a year' : 'in these data';
  const offers = (make) => comparison.columns.map((c, i) => (i === 0 ? null : make(c, i - 1)));
  board.replaceChildren(
    el('div', { class: 'row', role: 'row' }, el('span', { class: 'corner', role: 'columnheader' }, el('span', { class: 'unseen' }, 'Question')), comparison.columns.map((c, i) => head(c, i))),
    row('big', `Bill ${span}`, comparison.columns.map((c, i) => figure(`bill-${i}`, money(c.annualBill, currency()), () => why.bill(c)))),
    row('mid', `Saved ${span}`, offers((c, i) => figure(`saved-${i + 1}`, money(c.annualSaving, currency()), () => why.saving(c), c.annualSaving >= 0 ? 'good' : 'bad'))),
    row('mid', 'Of that, what this one adds', offers((c, i) => figure(`added-${i + 1}`, money(c.addedSaving, currency()), () => why.added(comparison, i + 1), c.addedSaving >= 0 ? 'good' : 'bad'))),
    row('words', `In ${hours(state.choices.outageHours ?? state.summary.outage.hours)} without the grid`, offers((c, i) => named(outage, i))),
    row('words', '9 outages in 10 last', offers((c, i) => lasting(i))),
    row('words', 'Fits the panel', offers((c, i) => fit(fits[i], i))),
    row('words', 'Price', offers((c, i) => figure(`price-${i + 1}`, c.price === null ? 'not stated' : money(c.price, currency()), () => why.price(c)))),
    row('words', 'Paid back', offers((c, i) => payback(i))),
  );
  if (focused) board.querySelector(`[data-figure="${focused}"]`)?.focus();
  second(comparison, outage);
}

function head(column, i) {
  const node = el('div', { role: 'columnheader', class: colour(column, i) }, i === 0 ? 'As it is' : column.name);
  node.append(el('small', {}, i === 0 ? 'no battery' : `${column.batteryUnits} × ${state.summary.offers[i - 1].battery}`));
  return node;
}

const row = (kind, name, cells) => el('div', { class: `row ${kind}`, role: 'row' }, el('div', { role: 'rowheader' }, name), cells.map((c) => el('div', { class: 'cell', role: 'cell' }, c ?? el('span', { class: 'none' }, '–'))));

function figure(id, text, open, mood = '') {
  return el('button', { type: 'button', class: `figure ${mood}`, 'data-figure': id, onclick: open, title: 'Why?' }, text, el('span', { class: 'unseen' }, ' – why?'));
}

function named(outage, i) {
  if (outage.keepsNothing) return el('span', { class: 'none' }, 'keeps nothing running');
  const offer = outage.offers[i], first = offer.named.firstUnservedHours;
  const text = first === null ? 'all that is kept is served' : first === 0 ? 'not all is served from the start' : `served for ${hours(first)}`;
  return figure(`named-${i + 1}`, text, () => why.named(offer), first === null ? 'good' : '');
}

function lasting(i) {
  if (state.answer.outage.keepsNothing) return el('span', { class: 'none' }, '–');
  if (!state.outage) return waiting();
  const offer = state.outage.offers[i];
  const h = offer.lasting.nineInTenHours;
  return figure(`lasting-${i + 1}`, `${h >= state.outage.horizonHours ? 'at least ' : ''}${hours(h)}`, () => why.lasting(offer, state.outage));
}

function fit(fits, i) {
  if (!fits) return el('span', { class: 'none' }, 'panel not stated');
  const chosen = state.choices.way ? fits.ways.find((w) => w.way === state.choices.way) : fits.ways.find((w) => w.way === fits.firstWay);
  if (!chosen) return figure(`fit-${i + 1}`, 'no way may be', () => why.fit(fits), 'bad');
  return chosen.standing === 'within' ? figure(`fit-${i + 1}`, `yes: ${chosen.way}`, () => why.fit(fits, chosen), 'good') : figure(`fit-${i + 1}`, `not by ${chosen.way}`, () => why.fit(fits, chosen), 'bad');
}

function payback(i) {
  if (!state.summary.isWholeYear) return el('span', { class: 'none' }, 'needs a whole year of data');
  if (!state.lifetime) return waiting();
  if (state.lifetime.problem) return el('span', { class: 'none' }, 'can not be told');
  const offer = state.lifetime.offers[i], { earliestPaybackYears: early, latestPaybackYears: late } = offer.bands, years = state.lifetime.years;
  const n = (x) => Math.round(x * 10) / 10;
  const text = offer.price === null ? 'no price is stated' : early === null ? `not within ${years} years` : late === null ? `after ${n(early)} years at best, or not within ${years}` : `after ${n(early)} to ${n(late)} years`;
  return figure(`payback-${i + 1}`, text, () => why.payback(offer, state.lifetime));
}

const waiting = () => el('span', { class: 'none waiting' }, 'working it out …');

function second(comparison, outage) {
  const place = byId('second');
  place.hidden = comparison.columns.length < 3;
  if (place.hidden) return;
  const [, one, two] = comparison.columns;
  const parts = [el('strong', {}, two.name), ' instead of ', el('strong', {}, one.name), ': '];
  parts.push(el('strong', {}, money(two.addedSaving, currency())), state.summary.isWholeYear ? ' more saved a year' : ' more saved in these data');
  if (one.price !== null && two.price !== null && state.lifetime?.breakEvens?.length) {
    const even = state.lifetime.breakEvens[0];
    parts.push(', for ', el('strong', {}, money(even.addedPrice, currency())), ' more', even.pays ? '; it pays as assumed' : even.paysUpToAddedPrice > 0 ? `; it would pay up to ${money(even.paysUpToAddedPrice, currency())}` : '; it would not pay as a gift');
  }
  parts.push('.');
  if (!outage.keepsNothing) {
    const [a, b] = outage.offers.map((o) => o.named.firstUnservedHours);
    parts.push(b === null ? (a === null ? ' In the outage both serve all that is kept.' : ' In the outage it serves all that is kept; the first does not.') : a === null ? '' : ` In the outage it serves ${hours(b)} in place of ${hours(a)}.`);
  }
  place.replaceChildren(...parts);
}
