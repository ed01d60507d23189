// The sliders and switches. Each puts one thing into what is tried out; "as the files say" takes all out again.
import { byId, el } from './dom.js';
import { get } from './api.js';
import { state } from './state.js';
import { hours, share } from './words.js';

const percent = (x) => `${Math.round(x * 100)} %`;
const sliders = {
  reserve: { choice: 'reserveFraction', scale: 100, words: percent, ofFile: () => same(state.summary.offers.map((o) => o.reserveFraction)), unsaid: 'as each offer says' },
  hours: { choice: 'outageHours', scale: 1, words: hours, ofFile: () => state.summary.outage.hours },
  sun: { choice: 'sunFraction', scale: 100, words: percent, ofFile: () => state.summary.outage.sunFraction },
  kept: { choice: 'keptFraction', scale: 100, words: percent, ofFile: () => state.summary.outage.keptFraction, unsaid: 'as the file lists' },
  growth: { choice: 'energyGrowthFraction', scale: 100, words: share, ofFile: () => state.summary.energyGrowthFraction },
};
let moved = () => {}, planned = () => {};

const same = (list) => (list.every((x) => x === list[0]) ? list[0] : null);

export function listen(onMove, onPlan) {
  moved = onMove;
  planned = onPlan;
  for (const [id, slider] of Object.entries(sliders))
    byId(id).addEventListener('input', () => { choose(slider.choice, Number(byId(id).value) / slider.scale); show(); });
  byId('start').addEventListener('change', () => choose('outageStart', byId('start').value || undefined));
  byId('charge').addEventListener('change', () => choose('charge', byId('charge').value));
  byId('way').addEventListener('change', () => choose('way', byId('way').value || undefined));
  byId('plan').addEventListener('change', () => planned(byId('plan').value || null));
  byId('reset').addEventListener('click', () => { state.choices = {}; if (state.plan) planned(null); else { fill(); moved(); } });
  byId('try-form').addEventListener('submit', (e) => e.preventDefault());
  byId('try-toggle').addEventListener('click', () => {
    const up = byId('try-toggle').closest('.try').classList.toggle('up');
    byId('try-toggle').setAttribute('aria-expanded', String(up));
    byId('try-toggle').textContent = up ? 'Done' : 'What if…';
    // The figures stay in sight above the sliders.
    if (up) byId('board').scrollIntoView({ block: 'start' });
  });
}

function choose(name, value) {
  if (value === undefined) delete state.choices[name];
  else state.choices[name] = value;
  moved();
}

function show() {
  for (const [id, slider] of Object.entries(sliders)) {
    const value = state.choices[slider.choice] ?? slider.ofFile();
    const words = value === null ? slider.unsaid : slider.words(value);
    byId(`${id}-out`).textContent = words;
    byId(id).setAttribute('aria-valuetext', words);
  }
}

export function fill() {
  const { outage, offers, ways } = state.summary;
  for (const [id, slider] of Object.entries(sliders)) byId(id).value = String((state.choices[slider.choice] ?? slider.ofFile() ?? 1) * slider.scale);
  byId('sun').disabled = !state.summary.hasSolar;
  byId('start').min = `${state.summary.from}T00:00`;
  byId('start').max = `${state.summary.to}T23:00`;
  byId('start').value = state.choices.outageStart ?? outage.start;
  byId('charge').value = state.choices.charge ?? outage.charge;
  byId('way').replaceChildren(el('option', { value: '' }, 'as the offers state it'), ...ways.map((w) => el('option', { value: w.name }, w.name)));
  byId('way').value = state.choices.way ?? '';
  byId('way').disabled = ways.length === 0;
  byId('units').replaceChildren(...offers.map((offer, i) => counter(offer, i)));
  byId('parts').replaceChildren(...outage.parts.map((part) => el('label', { class: 'tick' },
    el('input', { type: 'checkbox', checked: state.choices.parts?.[part.name] ?? part.runs, onchange: (e) => choose('parts', { ...state.choices.parts, [part.name]: e.target.checked }) }), `${part.name} runs`)));
  show();
}

function counter(offer, i) {
  const count = () => state.choices.units?.[offer.name] ?? offer.units;
  const out = el('output', { id: `units-${i}` }, String(count()));
  const step = (by) => () => {
    const next = Math.min(9, Math.max(1, count() + by));
    const units = { ...state.choices.units, [offer.name]: next };
    if (next === offer.units) delete units[offer.name];
    choose('units', Object.keys(units).length ? units : undefined);
    out.textContent = String(count());
  };
  return el('div', { class: 'count', role: 'group', 'aria-label': `Batteries in ${offer.name}` }, el('span', {}, `Batteries in “${offer.name}”`),
    el('button', { type: 'button', class: 'plain', 'aria-label': `One battery fewer in ${offer.name}`, onclick: step(-1) }, '−'), out,
    el('button', { type: 'button', class: 'plain', 'aria-label': `One battery more in ${offer.name}`, onclick: step(1) }, '+'));
}

export async function plans() {
  const list = await get(`plans?file=${encodeURIComponent(state.home)}`);
  byId('plan').replaceChildren(el('option', { value: '' }, `the home’s: ${state.summary.plan}`), ...list.map((p) => el('option', { value: p.file }, p.title)));
  byId('plan').value = state.plan ?? '';
}
