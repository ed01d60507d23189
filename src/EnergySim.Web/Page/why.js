// What a figure is made of: the lines, the causes, the rules, in the server's own words and numbers.
import { el, leaf, table } from './dom.js';
import { ask, Refused } from './api.js';
import { state, asked, askedOf, currency } from './state.js';
import * as w from './words.js';

const lines = (bill) => table(['line', 'quantity', 'price', 'amount'], [
  ...bill.lines.map((l) => [l.name, l.quantity === null ? '' : `${w.plain(l.quantity)} ${l.unit ?? ''}`, l.unitPrice === null ? '' : w.plain(l.unitPrice), w.cents(l.amount, currency())]),
  { sum: true, cells: ['bill', '', '', w.cents(bill.bill, currency())] }]);

const monthly = (column) => column.months.map((bill) => el('details', {}, el('summary', {}, el('span', {}, w.month(bill.from, bill.to)), el('span', {}, w.cents(bill.bill, currency()))), lines(bill)));

export function bill(column) {
  leaf(`${column.name === 'as it is' ? 'As it is' : column.name}: ${w.cents(column.annualBill, currency())}`,
    el('p', {}, `Each bill on ${state.answer.comparison.tariff}, line by line. Open a month.`), monthly(column), flows(column));
}

function flows(column) {
  const rows = [['bought at the meter', w.kwh(column.importKwh)], ['sold at the meter', w.kwh(column.exportKwh)], ['used in the house', w.kwh(column.loadKwh)]];
  if (column.solarKwh > 0) rows.push(['from the panels', w.kwh(column.solarKwh)], ['of which lost', w.kwh(column.curtailedKwh)], ['load met by the home’s own solar', w.share(column.ownSupplyFraction)]);
  if (column.batteryUnits > 0) rows.push(['standby of the battery', w.kwh(column.standbyKwh)], ['full cycles', w.plain(Math.round(column.equivalentFullCycles))]);
  return [el('h3', {}, 'Energy behind it'), table(['', 'in the span'], rows), bounds(column)];
}

function bounds(column) {
  const entries = Object.entries(column.limitHours);
  if (entries.length === 0) return null;
  return [el('h3', {}, 'Hours in which a limit bound'), table(['limit', 'hours'], entries.map(([name, h]) => [w.limits[name] ?? name, w.hours(h)]))];
}

export async function saving(column) {
  const i = state.answer.comparison.columns.indexOf(column), asItIs = state.answer.comparison.columns[0];
  const place = el('div', {}, el('p', { class: 'waiting' }, 'Working out the causes …'));
  leaf(`${column.name} saves ${w.cents(column.annualSaving, currency())}`, place,
    el('h3', {}, 'Bill by bill'), table(['', 'as it is', column.name], asItIs.months.map((b, m) => [w.month(b.from, b.to), w.cents(b.bill, currency()), w.cents(column.months[m].bill, currency())])
      .concat([{ sum: true, cells: ['together', w.cents(asItIs.annualBill, currency()), w.cents(column.annualBill, currency())] }])), flows(column));
  try {
    const offer = (await ask('causes', askedOf(['reserveFraction', 'units', 'way']))).offers[i - 1];
    place.replaceChildren(el('p', {}, 'Why it saves: each cause has its mean effect over all orders; together they are the saving to the cent.'),
      table(['cause', 'amount'], [...Object.entries(offer.causes).map(([c, a]) => [w.causes[c] ?? c, w.cents(a, currency())]), { sum: true, cells: ['together', w.cents(offer.annualSaving, currency())] }]));
  } catch (fault) {
    place.replaceChildren(el('p', {}, fault instanceof Refused ? fault.problems[0] : 'The causes can not be told.'));
  }
}

export function added(comparison, i) {
  const before = comparison.columns[i - 1], column = comparison.columns[i];
  leaf(`What ${column.name} adds: ${w.cents(column.addedSaving, currency())}`,
    el('p', {}, `The bill of the column before it less its own.`),
    table(['', 'bill'], [[before.name, w.cents(before.annualBill, currency())], [column.name, w.cents(column.annualBill, currency())], { sum: true, cells: ['added', w.cents(column.addedSaving, currency())] }]),
    el('p', {}, 'What held each of them back:'), [before, column].filter((c) => c.batteryUnits > 0).map((c) => [el('h3', {}, c.name), bounds(c) ?? el('p', {}, 'No limit bound.')]));
}

export function price(column) {
  leaf(`Price of ${column.name}`, el('p', {}, column.price === null ? 'No price is stated, so nothing is said of years to come in money.' : `${w.cents(column.price, currency())} installed, as the home’s file states it${state.choices.prices ? ' or as it was put in here' : ''}. Wiring comes on top; see whether it fits the panel.`));
}

export function named(offer) {
  const n = offer.named;
  const rows = n.events.map((e) => [`${w.when(e.at)}, after ${w.hours(e.hour)}`, w.events[e.kind] ?? e.kind, w.kwh(e.storedKwh)]);
  const lost = Object.entries(n.unservedKwh).filter(([, x]) => x > 0);
  leaf(`${offer.name}, ${w.hours(n.hours)} from ${w.when(n.start)}`,
    el('p', {}, `It begins with ${w.kwh(n.startKwh)} in the battery. ${n.firstUnservedHours === null ? 'All that is kept is served throughout.' : `Something is first left unserved after ${w.hours(n.firstUnservedHours)}.`}`),
    rows.length ? table(['when', 'what', 'stored'], rows, 2) : null,
    lost.length ? [el('h3', {}, 'Not served, and why'), table(['held back by', 'energy'], lost.map(([k, x]) => [w.unserved[k] ?? k, w.kwh(x)]))] : null,
    el('h3', {}, 'Can it carry the house?'), verdicts(offer.verdicts));
}

function verdicts(v) {
  const rows = [['power', w.answers[v.power.carries], `the kept load peaks at ${w.plain(Math.round(v.power.peakKw * 100) / 100)} kW; the battery gives ${v.power.continuousKw === null ? 'any' : `${w.plain(Math.round(v.power.continuousKw * 100) / 100)} kW`} for long`]];
  if (v.starting) rows.push(['starting motors', w.answers[v.starting.acrossTheLine], `${v.starting.surgeAmps === null ? 'the battery’s surge current is not stated' : `it gives ${w.plain(v.starting.surgeAmps)} A for a moment`}; with soft starters: ${w.answers[v.starting.withSoftStarters]}`]);
  rows.push(['energy', w.answers[v.energy], 'in this outage']);
  return table(['', '', ''], rows, 3);
}

export function lasting(offer, outage) {
  const rows = Object.entries(offer.lasting.atLeastFraction).filter(([, f]) => f !== null).map(([h, f]) => [`last ${h} h`, w.share(f)]);
  leaf(`${offer.name}: from every start of the year`,
    el('p', {}, `The grid is let fail at every one of ${w.plain(offer.lasting.starts)} starts, walked for ${w.hours(outage.horizonHours)}. Nine in ten last ${w.hours(offer.lasting.nineInTenHours)}, half ${w.hours(offer.lasting.halfHours)}, one in ten ${w.hours(offer.lasting.oneInTenHours)}.`),
    table(['outages that', 'share of starts'], rows),
    el('h3', {}, 'The starts that last the least'), table(['start', 'lasts', 'stored then'], offer.worst.map((s) => [w.when(s.start), w.hours(s.lastingHours), w.kwh(s.startKwh)])),
    el('ul', {}, outage.notes.map((note) => el('li', {}, note))));
}

export function fit(fits, chosen) {
  const ways = chosen ? [chosen, ...fits.ways.filter((x) => x !== chosen)] : fits.ways;
  leaf(`${fits.offer}: will it fit the panel?`,
    el('p', {}, `By the ${fits.codeEdition} edition. To be confirmed by a licensed electrician and the local authority.`),
    ways.map((way, i) => {
      const rules = el('details', {}, el('summary', {}, el('span', {}, way.way), el('span', {}, w.standings[way.standing])), el('p', {}, `${way.why[0].toUpperCase()}${way.why.slice(1)}.`),
        table(['rule', 'stands', 'arithmetic', 'section'], way.verdicts.map((v) => [v.rule.replaceAll('-', ' '), w.standings[v.standing], v.arithmetic, v.section ?? '–']), 4));
      rules.open = i === 0;
      return rules;
    }));
}

export function payback(offer, lifetime) {
  const headline = lifetime.headlines[lifetime.offers.indexOf(offer)], net = offer.bands.netPresentValue;
  leaf(`${offer.name} over ${lifetime.years} years`, el('p', { class: 'lead' }, headline),
    net ? [el('h3', {}, 'What could make it more or less'), table(['cause', 'worth if low', 'worth if high'], net.causes.map((c) => [c.cause, w.money(c.low, currency()), w.money(c.high, currency())]))] : null,
    el('h3', {}, 'Cash, loan, lease'), table(['', 'at the start', 'a month', 'paid in all', 'worth today'], offer.ways.map((x) => [x.way, w.money(x.paidAtStart, currency()), x.firstMonthly === null ? '–' : w.cents(x.firstMonthly, currency()), w.money(x.totalPaid, currency()), w.money(x.netPresentValue, currency())])),
    el('h3', {}, 'What is assumed'), table(['', ''], Object.entries(lifetime.assumptions).map(([k, v]) => [k.replace(/Fraction$/, '').replace(/([A-Z])/g, ' $1').toLowerCase(), typeof v === 'number' ? w.share(v) : v]), 2),
    lifetime.notQuantified.length ? [el('h3', {}, 'What no band holds'), el('ul', {}, lifetime.notQuantified.map((x) => el('li', {}, x)))] : null,
    state.choices.way ? el('p', {}, 'The years to come are worked out at the offers’ own connection.') : null);
}
