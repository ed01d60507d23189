// The form that begins a home: place, service, bills or a meter file, roof, plan, offers.
import { ask, get, Refused } from './api.js';
import { list, open } from './app.js';
import { byId, el, leaf } from './dom.js';
import { drop } from './more.js';
import { state } from './state.js';
import { plain } from './words.js';

const zones = ['America/Denver', 'America/New_York', 'America/Chicago', 'America/Phoenix', 'America/Los_Angeles', 'America/Anchorage', 'Pacific/Honolulu', 'America/Toronto', 'Europe/Berlin', 'Australia/Sydney'];
const climates = [['mixed', 'mixed'], ['cold', 'cold'], ['mild', 'mild'], ['hot-dry', 'hot and dry'], ['hot-humid', 'hot and humid']];
const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

const field = (id, words, props = {}, wide = false) => el('div', { class: wide ? 'ask wide' : 'ask' }, el('label', { for: id }, words), el('input', { id, type: 'text', ...props }));
const numberField = (id, words, value, props = {}) => field(id, words, { type: 'number', min: 0, step: 'any', value, ...props });
const choice = (id, words, options) => el('div', { class: 'ask' }, el('label', { for: id }, words), el('select', { id }, options.map(([v, t]) => el('option', { value: v }, t))));
const tick = (id, words, checked) => el('label', { class: 'tick' }, el('input', { type: 'checkbox', id, checked }), words);
const text = (id) => byId(id).value.trim();
const number = (id) => (text(id) === '' ? null : Number(text(id)));

export async function begin(dropped = null, names = []) {
  const plans = await get('catalogue');
  let meterFiles = dropped ?? [], weather = null, load = null;
  const said = [];
  const told = el('div', { role: 'status', id: 'form-told' }), meterTold = el('p', { class: 'quiet', id: 'meter-told' }, dropped ? names.join(', ') : '');
  const meterInput = el('input', { type: 'file', id: 'f-meter', multiple: true, 'aria-label': 'Meter files', onchange: async () => { meterFiles = (await drop([...meterInput.files])).files; load = null; meterTold.textContent = [...meterInput.files].map((f) => f.name).join(', '); } });
  const weatherInput = el('input', { type: 'file', id: 'f-weather', 'aria-label': 'Weather file', onchange: async () => { weather = (await drop([...weatherInput.files])).files[0]; } });
  const bills = el('div', { class: 'form-grid', id: 'by-bills' }, numberField('f-year', 'Year of the bills', 2025, { step: 1 }), choice('f-climate', 'Climate', climates),
    el('div', { class: 'wide' }, el('p', { class: 'quiet' }, 'kWh on each bill'), el('div', { class: 'months' }, months.map((m, i) => numberField(`f-kwh-${i}`, m, '')))),
    tick('f-heat', 'Heated with electricity', true), tick('f-cool', 'Has cooling', true), tick('f-water', 'Water heated with electricity', false));
  const meter = el('div', { class: 'form-grid', id: 'by-meter' }, el('div', { class: 'wide' }, meterInput, meterTold, el('p', { class: 'quiet' }, 'Meter XML, or a table from the utility’s portal. It is read here, on this machine.')));
  const roof = el('div', { class: 'form-grid', id: 'with-roof' }, el('div', { class: 'ask wide' }, el('span', {}, 'Weather of the place (EPW, or satellite CSV)'), weatherInput), numberField('f-inverter', 'Solar inverter, kW', 5),
    ['one', 'two'].map((n, i) => el('fieldset', { class: 'wide' }, el('legend', {}, `Plane ${n}`), el('div', { class: 'form-grid' }, numberField(`f-tilt-${i}`, 'Tilt from level, °', i === 0 ? 25 : ''), numberField(`f-azimuth-${i}`, 'Facing, ° from north', i === 0 ? 180 : ''), numberField(`f-kw-${i}`, 'Panels, kW', i === 0 ? 6 : '')))));
  const shows = () => { bills.hidden = byId('f-source').value !== 'bills'; meter.hidden = !bills.hidden; roof.hidden = byId('f-solar').value === 'none'; };
  const make = async () => {
    told.replaceChildren('Working …');
    try {
      const fromMeter = byId('f-source').value === 'meter';
      if (fromMeter && load === null) {
        const read = await ask('meter', { files: meterFiles, said: [{ key: 'zone', value: text('f-zone') }, ...said] });
        load = read.file;
        meterTold.textContent = `${plain(Math.round(read.loadKwh))} kWh from ${read.fromDate} to ${read.toDate} in steps of ${read.stepMinutes} minutes. ${read.notes.join(' ')}`;
      }
      const made = await ask('drafts', {
        name: text('f-name') || 'A new home', place: text('f-place'), zone: text('f-zone'), mainAmps: number('f-main'), busbarAmps: number('f-busbar'), exportLimitKw: number('f-export'),
        load: fromMeter ? load : null,
        bills: fromMeter ? null : { year: number('f-year'), kwh: months.map((_, i) => number(`f-kwh-${i}`) ?? 0), climate: byId('f-climate').value, heatsWithElectricity: byId('f-heat').checked, cools: byId('f-cool').checked, heatsWater: byId('f-water').checked },
        roof: byId('f-solar').value === 'none' ? null : { weather: weather ?? '', inverterKw: number('f-inverter') ?? 0, planes: [0, 1].map((i) => ({ tilt: number(`f-tilt-${i}`), azimuth: number(`f-azimuth-${i}`), kw: number(`f-kw-${i}`) })).filter((p) => p.tilt !== null && p.azimuth !== null && p.kw !== null) },
        plan: byId('f-plan').value, battery: { capacityKwh: number('f-capacity') ?? 0, chargeLimitKw: number('f-in') ?? 0, dischargeLimitKw: number('f-out') ?? 0, inverterKw: number('f-inv') ?? 0 },
        offers: [1, 2].map((n) => ({ units: n, price: number(`f-price-${n}`) })), reserveFraction: (number('f-reserve') ?? 20) / 100,
      });
      byId('leaf').close();
      if (await open(made.home)) { await list(made.home); state.summary.repairs.push(...made.notes); }
    } catch (fault) {
      if (!(fault instanceof Refused)) throw fault;
      told.replaceChildren(...(fault.questions.length ? fault.questions.map((q) => el('div', {}, el('p', {}, q.text), el('div', { class: 'actions' }, q.choices.map((c) => el('button', { type: 'button', class: 'plain', onclick: () => { said.push({ key: q.option, value: c }); make(); } }, c)))))
        : [el('ul', {}, fault.problems.map((p) => el('li', {}, p)))]));
      told.scrollIntoView({ block: 'nearest' });
    }
  };
  leaf('A new home',
    el('div', { class: 'form-grid' }, field('f-name', 'What it is called'), field('f-place', 'Where it is, in words'), field('f-zone', 'Time zone', { value: 'America/Denver', list: 'f-zones' }), el('datalist', { id: 'f-zones' }, zones.map((z) => el('option', { value: z }))),
      numberField('f-main', 'Main breaker, A', 200), numberField('f-busbar', 'Busbar, A (if known)', ''), numberField('f-export', 'Most that may be sold, kW', '')),
    el('h3', {}, 'What the house uses'), choice('f-source', 'Known from', [['bills', 'twelve bills'], ['meter', 'a meter file']]), bills, meter,
    el('h3', {}, 'The roof'), choice('f-solar', 'Solar', [['none', 'none'], ['roof', 'panels, from planes and weather']]), roof,
    el('h3', {}, 'Rate plan'), choice('f-plan', 'Plan', plans.map((p) => [p.file, p.title])),
    el('h3', {}, 'The battery and the offers'), el('div', { class: 'form-grid' }, numberField('f-capacity', 'One battery holds, kWh', 10), numberField('f-in', 'Most power in, kW', 5), numberField('f-out', 'Most power out, kW', 5), numberField('f-inv', 'Inverter, kW', 5), numberField('f-price-1', 'Price of one, installed', ''), numberField('f-price-2', 'Price of two, installed', ''), numberField('f-reserve', 'Kept back for outages, %', 20, { max: 100 })),
    told, el('div', { class: 'actions' }, el('button', { type: 'button', class: 'firm', id: 'f-make', onclick: make }, 'Show the answer')));
  if (dropped) byId('f-source').value = 'meter';
  for (const id of ['f-source', 'f-solar']) byId(id).addEventListener('change', shows);
  byId('f-zone').addEventListener('change', () => { load = null; });
  shows();
}
