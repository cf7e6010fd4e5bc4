// What the first screen will ask is asked while its script is still on its way; the screen then finds it under way.

const soon_old_ms = 5000;

interface Under {
  /** When it was asked, by the clock of this device. */
  at_ms: number;
  response: Promise<Response>;
}

const under_way = new Map<string, Under>();

const key_of = (method: string, path: string, body: unknown) => `${method} ${path} ${JSON.stringify(body) ?? ""}`;

export function keep_ahead(method: string, path: string, body: unknown, response: Promise<Response>): void {
  response.catch(() => undefined); // whoever takes it hears of it
  under_way.set(key_of(method, path, body), { at_ms: Date.now(), response });
}

/** For the first who asks the same, soon after. */
export function taken_ahead(method: string, path: string, body: unknown): Under | undefined {
  if (under_way.size === 0) return undefined;
  const key = key_of(method, path, body);
  const found = under_way.get(key);
  under_way.delete(key);
  return found && Date.now() - found.at_ms < soon_old_ms ? found : undefined;
}

/** Something has changed: what was asked before is old. */
export const forget_ahead = () => under_way.clear();
