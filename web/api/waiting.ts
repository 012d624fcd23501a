/** A request that has no answer yet: nothing is shown before 400 ms; from 2 s on one may scan on. Source: look guide, section 4. */
export interface Waiting {
  readonly what: string;
  readonly stage: "asking" | "slow";
}
export const ASKING_AFTER_MS = 400;
export const SLOW_AFTER_MS = 2_000;

export type WaitingListener = (waiting: readonly Waiting[]) => void;

/** Keeps the list of what is waited for, and tells it when it changes. */
export interface WaitingList {
  /** Runs a request and lists it while it takes long. */
  during<Value>(what: string, request: () => Promise<Value>): Promise<Value>;
  /** Listens; returns how to stop. The listener hears the list as it is at once. */
  listen(listener: WaitingListener): () => void;
}

/** Makes an empty list. */
export function waitingList(): WaitingList {
  const shown = new Map<symbol, Waiting>();
  const listeners = new Set<WaitingListener>();
  const tell = () => {
    const list = [...shown.values()];
    for (const listener of listeners) listener(list);
  };
  return {
    async during(what, request) {
      const key = Symbol(what);
      const show = (stage: Waiting["stage"]) => {
        shown.set(key, { what, stage });
        tell();
      };
      const timers = [
        setTimeout(() => show("asking"), ASKING_AFTER_MS),
        setTimeout(() => show("slow"), SLOW_AFTER_MS),
      ];
      try {
        return await request();
      } finally {
        timers.forEach(clearTimeout);
        if (shown.delete(key)) tell();
      }
    },
    listen(listener) {
      listeners.add(listener);
      listener([...shown.values()]);
      return () => listeners.delete(listener);
    },
  };
}
