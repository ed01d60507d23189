// Files in and out: dropping, saving, taking along, beginning a home.
export function listen() {}
