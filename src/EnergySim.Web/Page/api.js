// Talks to the server that sent this page, and to nobody else.
let key = '';

export class Refused extends Error {
  constructor(problems, questions) {
    super(problems.join('\n'));
    this.problems = problems;
    this.questions = questions ?? [];
  }
}

async function checked(response) {
  if (response.ok) return response;
  let body;
  try { body = await response.json(); } catch { body = { problems: [`the server answered ${response.status}`] }; }
  throw new Refused(body.problems ?? [body.title ?? 'the request was refused'], body.questions);
}

export async function get(path) { return (await checked(await fetch(`/api/v1/${path}`))).json(); }

export async function send(method, path, body, signal) {
  if (key === '') key = (await get('session')).key;
  const isForm = body instanceof FormData;
  const response = await fetch(`/api/v1/${path}`, {
    method, signal, body: isForm ? body : JSON.stringify(body),
    headers: isForm ? { 'X-Session-Key': key } : { 'X-Session-Key': key, 'Content-Type': 'application/json' },
  });
  return checked(response);
}

export const ask = async (path, body, signal) => (await send('POST', path, body, signal)).json();
export const askText = async (path, body, signal) => (await send('POST', path, body, signal)).text();

export async function download(path, body, name) { keep(await (await send('POST', path, body)).blob(), name); }

export async function downloadResult(path, name) { keep(await (await checked(await fetch(`/api/v1/${path}`))).blob(), name); }

function keep(blob, name) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}

// Runs work that is asked for again and again: one at a time, the last wish wins, none in between is done.
export function lastWins(work) {
  let running = false, again = false;
  return async function run() {
    if (running) { again = true; return; }
    running = true;
    try {
      do { again = false; await work(); } while (again);
    } finally { running = false; }
  };
}
