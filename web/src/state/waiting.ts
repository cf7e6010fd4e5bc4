// What waits in the outbox, followed by a screen.
import { effect } from "@preact/signals";
import { useEffect, useMemo, useState } from "preact/hooks";
import { type Sent, type Waiting, outbox } from "./outbox";

interface Held {
  waiting: readonly Waiting[];
  sent: readonly Sent[];
  /** It was looked at. */
  there: boolean;
}

function useOutbox(): Held {
  const [held, set_held] = useState<Held>({ waiting: [], sent: [], there: false });
  useEffect(() => {
    let stop: (() => void) | undefined;
    let gone = false;
    void outbox().then((box) => {
      if (!gone) stop = effect(() => set_held({ waiting: box.waiting.value, sent: box.sent.value, there: true }));
    });
    return () => {
      gone = true;
      stop?.();
    };
  }, []);
  return held;
}

export const useWaiting = (): readonly Waiting[] => useOutbox().waiting;

/** What an answer asked then cannot hold yet: what waits, and what was sent since. */
export function useOnTheWay(asked_ms: number): readonly Waiting[] {
  const { waiting, sent } = useOutbox();
  return useMemo(() => [...sent.filter((one) => one.sent_ms >= asked_ms), ...waiting], [waiting, sent, asked_ms]);
}

/** Whether it is known what waits. */
export const useWaitingKnown = (): boolean => useOutbox().there;
