// What waits in the outbox, followed by a screen.
import { useEffect, useState } from "preact/hooks";
import { type Waiting, outbox } from "./outbox";

export function useWaiting(): readonly Waiting[] {
  const [waiting, set_waiting] = useState<readonly Waiting[]>([]);
  useEffect(() => {
    let stop: (() => void) | undefined;
    let gone = false;
    void outbox().then((box) => {
      if (!gone) stop = box.waiting.subscribe(set_waiting);
    });
    return () => {
      gone = true;
      stop?.();
    };
  }, []);
  return waiting;
}
