// The page: opens a home, lets things be tried out, and shows what the engine says.
import { ask, askText, get, lastWins, Refused } from './api.js';
import * as board from './board.js';
import * as day from './day.js';
import { byId, el, put } from './dom.js';
import { state, asked, askedOf } from './state.js';
import * as tries from './tries.js';
import { hours, money, when } from './words.js';

const slow = {
  outage: { names: ['reserveFraction', 'units', 'sunFraction', 'keptFraction', 'parts', 'charge', 'way'], path: 'outage' },
  lifetime: { names: ['reserveFraction', 'units', 'prices', 'energyGrowthFraction', 'charge'], path: 'lifetime' },
};
let timer = 0;

export function trouble(fault) {
  const box = byId('trouble');
  if (fault === null) { box.hidden = true; return; }
  const problems = fault instanceof Refused ? fault.problems : [`The page could not reach its program: ${fault.message}`];
  box.replaceChildren(el('p', {}, el('strong', {}, problems.length > 1 ? 'These do not fit:' : 'This does not fit:')), el('ul', {}, problems.map((p) => el('li', {}, p))));
  box.hidden = false;
  box.scrollIntoView({ block: 'nearest' });
}

const charts = lastWins(async () => {
  const width = (id) => Math.round(Math.min(1400, Math.max(300, byId(id).clientWidth / (byId(id).clientWidth > 640 ? 1.2 : 1))));
  const draw = async (id, chart) => {
    const widthPx = width(id);
    put(byId(id), await askText('chart', asked({ chart, widthPx, heightPx: widthPx < 560 ? 520 : Math.round(Math.max(400, Math.min(620, widthPx * 0.55))) })));
  };
  await draw('savings', 'savings');
  if (state.answer.outage.keepsNothing) byId('stored').replaceChildren(el('p', {}, 'Connected this way, nothing is kept running.'));
  else await draw('stored', 'storedEnergy');
});

const figures = lastWins(async () => {
  try {
    const began = performance.now();
    state.answer = await ask('answer', asked());
    board.draw();
    performance.measure('figures', { start: began });
    document.body.dataset.figures = String(Number(document.body.dataset.figures ?? 0) + 1);
    trouble(null);
    story();
    clearTimeout(timer);
    timer = setTimeout(later, 150);
  } catch (fault) { trouble(fault); }
});

async function later() {
  tell();
  try {
    await charts();
    await Promise.all([day.follow(), slowly('outage'), slowly('lifetime')]);
    document.body.dataset.settled = document.body.dataset.figures;
  } catch (fault) { if (fault.name !== 'AbortError') trouble(fault); }
}

// Slow work is asked for only when something that it depends on has moved.
async function slowly(kind) {
  if (kind === 'lifetime' && !state.summary.isWholeYear) return;
  if (kind === 'outage' && state.answer.outage.keepsNothing) return;
  const request = askedOf(slow[kind].names), key = JSON.stringify(request);
  if (slow[kind].key === key) return;
  slow[kind].abort?.abort();
  slow[kind].abort = new AbortController();
  slow[kind].key = key;
  state[kind] = null;
  board.draw();
  try {
    state[kind] = await ask(slow[kind].path, request, slow[kind].abort.signal);
  } catch (fault) {
    if (fault.name === 'AbortError') throw fault;
    if (kind === 'lifetime' && fault instanceof Refused) state.lifetime = { problem: fault.problems[0] };
    else { slow[kind].key = ''; throw fault; }
  }
  board.draw();
}

function story() {
  const { comparison, outage, notes } = state.answer;
  const start = state.choices.outageStart ?? state.summary.outage.start;
  byId('dark-story').textContent = outage.keepsNothing ? 'Connected this way, nothing is kept running when the grid is down.'
    : `The grid fails on ${when(start)} and stays away for ${hours(state.choices.outageHours ?? state.summary.outage.hours)}${!state.summary.outage.startIsStated && !state.choices.outageStart ? ', the start of the year that lasts the least' : ''}. `
      + outage.offers.map((o) => `${o.name}: ${o.named.firstUnservedHours === null ? 'all that is kept is served' : o.named.firstUnservedHours === 0 ? 'not all that is kept is served from the start' : `served for ${hours(o.named.firstUnservedHours)}`}`).join('; ') + '.';
  byId('notes').replaceChildren(...[...notes, ...comparison.notes, ...state.summary.repairs].map((n) => el('li', {}, n)));
}

// For those who do not see the figures move.
function tell() {
  byId('say').textContent = state.answer.comparison.columns.map((c, i) => (i === 0 ? `As it is ${money(c.annualBill, state.summary.currency)}` : `${c.name} ${money(c.annualBill, state.summary.currency)}`)).join(', ');
}

export async function open(file, plan = null) {
  try {
    state.summary = await get(`home?file=${encodeURIComponent(file)}${plan ? `&plan=${encodeURIComponent(plan)}` : ''}`);
  } catch (fault) {
    trouble(fault);
    return false;
  }
  if (state.home !== file) state.choices = {};
  Object.assign(state, { home: file, plan, outage: null, lifetime: null });
  slow.outage.key = slow.lifetime.key = '';
  const s = state.summary;
  byId('home-name').textContent = s.name;
  byId('home-facts').replaceChildren(...[s.place, s.planPublisher ? `${s.plan}, ${s.planPublisher}` : s.plan, `${s.from} to ${s.to} in steps of ${s.stepMinutes} minutes`].filter(Boolean).map((fact) => el('span', {}, fact)));
  document.title = `${s.name}: one battery or two?`;
  byId('pick').value = file;
  tries.fill();
  day.home();
  await figures();
  tries.plans().catch(trouble);
  return true;
}

export async function list(selected) {
  const homes = await get('homes');
  const group = (label, area) => {
    const found = homes.filter((h) => h.file.startsWith(area));
    return found.length ? el('optgroup', { label }, found.map((h) => el('option', { value: h.file }, h.title || h.file))) : null;
  };
  byId('pick').replaceChildren(...[group('Your homes', 'library/'), group('Demonstration', 'demo/')].filter(Boolean));
  if (selected && !homes.some((h) => h.file === selected)) byId('pick').append(el('option', { value: selected }, `${state.summary?.name ?? selected} (not saved)`));
  if (selected) byId('pick').value = selected;
  return homes;
}

async function begin() {
  tries.listen(() => figures(), (plan) => open(state.home, plan));
  byId('pick').addEventListener('change', () => open(byId('pick').value));
  byId('leaf-close').addEventListener('click', () => byId('leaf').close());
  let width = window.innerWidth;
  window.addEventListener('resize', () => { if (Math.abs(window.innerWidth - width) > 40 && state.answer) { width = window.innerWidth; charts(); } });
  try {
    const homes = await list();
    const first = homes.find((h) => h.file.startsWith('library/')) ?? homes.find((h) => h.file.endsWith('/demo-home.yaml')) ?? homes[0];
    if (first) await open(first.file);
  } catch (fault) { trouble(fault); }
  const more = await import('./more.js');
  more.listen();
}

begin();
