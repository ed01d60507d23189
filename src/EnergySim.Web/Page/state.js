// What is open and what is tried out; nothing else is remembered.
export const state = { home: '', plan: null, choices: {}, summary: null, answer: null, outage: null, lifetime: null };

export const asked = (extra = {}) => ({ home: state.home, plan: state.plan, choices: state.choices, ...extra });

// Only what a piece of slow work depends on, so that moving the rest does not ask for it again.
export function askedOf(names) {
  const choices = {};
  for (const name of names) if (state.choices[name] !== undefined) choices[name] = state.choices[name];
  return { home: state.home, plan: state.plan, choices };
}

export const currency = () => state.summary.currency;
