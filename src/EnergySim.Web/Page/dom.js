// Builds elements; text is always text.
export function el(name, props = {}, ...children) {
  const node = document.createElement(name);
  for (const [key, value] of Object.entries(props)) {
    if (value === undefined || value === null || value === false) continue;
    if (key === 'class') node.className = value;
    else if (key.startsWith('on')) node.addEventListener(key.slice(2), value);
    else node.setAttribute(key, value === true ? '' : value);
  }
  node.append(...children.flat().filter((c) => c !== null && c !== undefined));
  return node;
}

export const byId = (id) => document.getElementById(id);

export function bar(fraction, kind) {
  const svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
  svg.setAttribute('viewBox', '0 0 100 10');
  svg.setAttribute('preserveAspectRatio', 'none');
  svg.setAttribute('aria-hidden', 'true');
  const rect = document.createElementNS('http://www.w3.org/2000/svg', 'rect');
  rect.setAttribute('width', String(Math.max(0, Math.min(100, fraction * 100))));
  rect.setAttribute('height', '10');
  rect.setAttribute('class', kind);
  svg.append(rect);
  return svg;
}

export function column(fraction) {
  const svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
  svg.setAttribute('viewBox', '0 0 10 100');
  svg.setAttribute('preserveAspectRatio', 'none');
  svg.setAttribute('aria-hidden', 'true');
  const height = Math.max(0, Math.min(100, fraction * 100));
  const rect = document.createElementNS('http://www.w3.org/2000/svg', 'rect');
  for (const [k, v] of [['x', 1], ['width', 8], ['y', 100 - height], ['height', height]]) rect.setAttribute(k, String(v));
  svg.append(rect);
  return svg;
}

export function put(node, markup) {
  const parsed = new DOMParser().parseFromString(markup, 'image/svg+xml');
  node.replaceChildren(document.importNode(parsed.documentElement, true));
}

export function table(heads, rows, numbersFrom = 1) {
  return el('div', { class: 'scroll', tabindex: '0', role: 'group', 'aria-label': heads.filter(Boolean).join(', ') }, el('table', {},
    el('thead', {}, el('tr', {}, heads.map((h, i) => (h ? el('th', { scope: 'col', class: i >= numbersFrom ? 'n' : '' }, h) : el('td', {}))))),
    el('tbody', {}, rows.map((r) => el('tr', { class: r.sum ? 'sum' : '' }, (r.cells ?? r).map((c, i) => (i === 0 ? el('th', { scope: 'row' }, c) : el('td', { class: i >= numbersFrom ? 'n' : '' }, c))))))));
}

export function leaf(title, ...content) {
  byId('leaf-title').textContent = title;
  byId('leaf-body').replaceChildren(...content.flat().filter((c) => c !== null && c !== undefined));
  const dialog = byId('leaf');
  if (!dialog.open) dialog.showModal();
  dialog.scrollTop = 0;
}
