// Files in and out: opening and dropping, saving, taking along, long work, and the form for a home from scratch.
import { send, ask, download, downloadResult, get, Refused } from './api.js';
import { list, open, trouble } from './app.js';
import { byId, el, leaf } from './dom.js';
import { begin } from './form.js';
import { state, asked } from './state.js';
import * as w from './words.js';

export function listen() {
  const veil = byId('drop-veil');
  let depth = 0;
  window.addEventListener('dragenter', (e) => { e.preventDefault(); depth += 1; veil.hidden = false; });
  window.addEventListener('dragover', (e) => e.preventDefault());
  window.addEventListener('dragleave', () => { depth -= 1; if (depth <= 0) { depth = 0; veil.hidden = true; } });
  window.addEventListener('drop', (e) => { e.preventDefault(); depth = 0; veil.hidden = true; taken([...e.dataTransfer.files]); });
  byId('open').addEventListener('click', () => byId('files').click());
  byId('files').addEventListener('change', () => { taken([...byId('files').files]); byId('files').value = ''; });
  byId('keep').addEventListener('click', save);
  byId('take').addEventListener('click', take);
  byId('begin').addEventListener('click', () => begin());
  document.body.dataset.ready = 'true';
}

export async function drop(files) {
  const form = new FormData();
  for (const file of files) form.append('files', file, file.name);
  return (await send('POST', 'drops', form)).json();
}

async function taken(files) {
  if (files.length === 0) return;
  try {
    const dropped = await drop(files);
    if (dropped.home === null) { await begin(dropped.files, files.map((f) => f.name)); return; }
    if (await open(dropped.home)) await list(dropped.home);
  } catch (fault) { trouble(fault); }
}

function save() {
  const isOwn = state.home.startsWith('library/');
  const name = el('input', { type: 'text', id: 'save-name', value: isOwn ? state.home.slice('library/'.length) : `${state.summary.name.toLowerCase().replace(/[^a-z0-9]+/g, '-').replace(/^-|-$/g, '')}.yaml` });
  const replaces = el('input', { type: 'checkbox', id: 'save-replaces', checked: isOwn });
  const told = el('p', { role: 'status' });
  const write = async () => {
    told.textContent = '';
    try {
      const saved = await ask('save', asked({ to: name.value.trim(), replaces: replaces.checked }));
      state.choices = {};
      await open(saved.file);
      await list(saved.file);
      told.textContent = `Saved as ${saved.file.slice('library/'.length)}. ${saved.notes.join(' ')}`;
    } catch (fault) { told.textContent = fault instanceof Refused ? fault.problems.join(' ') : fault.message; }
  };
  leaf('Save this home', el('p', {}, 'It is written into the folder of homes as a plain file, with what was tried out put into it; comments and everything else in the file stay. The command line reads the same file.'),
    el('div', { class: 'ask' }, el('label', { for: 'save-name' }, 'File name'), name), el('label', { class: 'tick' }, replaces, 'Replace a file of that name'),
    el('div', { class: 'actions' }, el('button', { type: 'button', class: 'firm', id: 'save-now', onclick: write }, 'Save')), told);
}

function take() {
  const told = el('p', { role: 'status' });
  const stem = state.summary.name.toLowerCase().replace(/[^a-z0-9]+/g, '-');
  const button = (id, text, work) => el('button', { type: 'button', class: 'plain', id, onclick: async () => {
    told.textContent = 'Working …';
    try { await work(); told.textContent = 'Done.'; } catch (fault) { told.textContent = fault instanceof Refused ? fault.problems.join(' ') : fault.message; }
  } }, text);
  const columns = state.answer.comparison.columns;
  leaf('Take along',
    el('h3', {}, 'For the homeowner'), el('div', { class: 'actions' },
      el('button', { type: 'button', class: 'plain', id: 'take-pdf', onclick: () => work('report') }, 'The report (PDF)'),
      button('take-print', 'Print this page', async () => { byId('leaf').close(); window.print(); }),
      button('take-png', 'Savings chart (PNG)', () => download('chart', asked({ chart: 'savings', form: 'png' }), `${stem}-savings.png`)),
      button('take-svg', 'Savings chart (SVG)', () => download('chart', asked({ chart: 'savings', form: 'svg' }), `${stem}-savings.svg`)),
      state.answer.outage.keepsNothing ? null : button('take-outage', 'Outage chart (PNG)', () => download('chart', asked({ chart: 'storedEnergy', form: 'png' }), `${stem}-outage.png`))),
    el('h3', {}, 'For the installer'), el('div', { class: 'actions' }, state.answer.fits.length === 0 ? el('p', {}, 'The home states no panel.') : columns.slice(1).map((c, i) => button(`take-sheet-${i + 1}`, `Set-point sheet, ${c.name}`, () => download('sheet', asked({ column: i + 1 }), `${stem}-set-points-${i + 1}.txt`)))),
    el('h3', {}, 'For the analyst'), el('div', { class: 'actions' }, columns.map((c, i) => button(`take-ledger-${i}`, `Ledger, ${c.name} (CSV)`, () => download('ledger', asked({ column: i }), `${stem}-ledger-${i}.csv`)))),
    told, el('h3', {}, 'Long work'), el('p', { class: 'quiet' }, 'It goes on in the background; the page stays usable.'), el('div', { class: 'actions' },
      el('button', { type: 'button', class: 'plain', id: 'work-bound', onclick: () => work('bound') }, 'How near is this to perfect foresight?'),
      el('button', { type: 'button', class: 'plain', id: 'work-starts', onclick: () => work('starts') }, 'Every start, and what each reserve saves and lasts')));
}

async function work(kind) {
  const progress = el('progress', { class: 'bar', max: 1, value: 0, 'aria-label': 'Share of the work that is done' }), told = el('p', { role: 'status' }, 'Waiting for its turn …'), result = el('div');
  let job = null;
  const cancel = el('button', { type: 'button', class: 'plain', id: 'work-cancel', onclick: async () => { if (job) { job = await (await send('DELETE', `jobs/${job.id}`)).json(); told.textContent = 'Cancelled.'; } } }, 'Cancel');
  leaf({ bound: 'How near to perfect foresight?', starts: 'Every start, and every reserve', report: 'The homeowner’s report' }[kind], told, progress, el('div', { class: 'actions' }, cancel), result);
  try {
    job = await ask('jobs', asked({ kind }));
    while (job.state === 'waiting' || job.state === 'running') {
      await new Promise((r) => { setTimeout(r, 400); });
      if (job.state === 'cancelled') return;
      job = await get(`jobs/${job.id}`);
      progress.value = job.doneFraction;
      if (job.state === 'running') told.textContent = `Working on ${job.part} …`;
    }
    if (job.state === 'failed') told.textContent = job.problem;
    if (job.state !== 'done') return;
    progress.value = 1;
    told.textContent = 'Done.';
    cancel.hidden = true;
    if (kind === 'report') {
      await downloadResult(`jobs/${job.id}/result`, `${state.summary.name.toLowerCase().replace(/[^a-z0-9]+/g, '-')}.pdf`);
      return;
    }
    const { table } = await import('./dom.js');
    const outcome = await get(`jobs/${job.id}/result`);
    result.replaceChildren(...(kind === 'bound' ? bound(outcome, table) : starts(outcome, table)));
  } catch (fault) { told.textContent = fault instanceof Refused ? fault.problems.join(' ') : fault.message; }
}

const bound = (outcome, table) => outcome.offers.map((offer) => el('div', {}, el('h3', {}, offer.name), table(['told to', 'bill', 'saved'], [
  ...offer.strategies.map((s) => [`${s.description}${s.isTheOffers ? ' (the offer’s)' : ''}`, w.cents(s.bill, outcome.currency), w.cents(s.saved, outcome.currency)]),
  { sum: true, cells: ['perfect foresight, at most', w.cents(offer.bound.bill, outcome.currency), w.cents(offer.bound.mostSaved, outcome.currency)] }])));

const starts = (outcome, table) => (outcome.frontier?.offers ?? []).map((offer) => el('div', {}, el('h3', {}, offer.name), table(['reserve', 'saved a year', 'nine in ten last'],
  offer.points.map((p) => [w.share(p.reserveFraction), w.cents(p.annualSaving, outcome.frontier.currency), w.hours(p.lasting.nineInTenHours)]))));
