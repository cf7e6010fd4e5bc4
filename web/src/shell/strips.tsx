// What is amiss, on every screen: above the screen what it is, and how to put it right.
import { away } from "../api/ask";
import { type Saving, another_daybook, cannot_save, outdated } from "../api/told";
import { exact_moment, from_utc, iso } from "../say/clock";
import { plain, useHabits } from "../say/say";
import { in_question } from "../state/clock";
import { keep_draft } from "../state/drafts";
import { type Waiting, counted, id_of, outbox } from "../state/outbox";
import { ready_now } from "../state/ready_watch";
import { no_room_here } from "../state/store";
import { can_undo } from "../state/undo";
import { useWaiting } from "../state/waiting";
import { ClocksApart, ZonesApart } from "./clocks_apart";
import { go, link } from "./router";

export function Strips() {
  const waiting = useWaiting();
  const refused = waiting.filter((w) => w.refused !== undefined);
  const kept = counted(waiting.filter((w) => w.refused === undefined));
  return (
    <>
      <div role="status">
        {away.value && (
          <p class="strip">
            The server is away. {kept ? `${kept} kept here and sent when it is back.` : "What you type stays in this browser; readings and ticks are sent when it is back."}
          </p>
        )}
        {!away.value && cannot_save.value && <CannotSave kept={kept} />}
        {outdated.value && (
          <p class="strip">
            The program was updated since this page was opened. Reload it; what you typed is kept.{" "}
            <button type="button" onClick={() => location.reload()}>
              Reload
            </button>
          </p>
        )}
        {another_daybook.value && (
          <p class="strip">
            This daybook is not as it was: it was put back from a copy, or another one is open. What was saved after the copy was made is not in it; what you
            typed here and did not save still is.{" "}
            <button type="button" onClick={() => (another_daybook.value = false)}>
              OK
            </button>
          </p>
        )}
        {no_room_here.value && <p class="strip">This browser has no room left. What you type stays only while this page is open: save it before you close it.</p>}
        {in_question() && <ClocksApart />}
        <ZonesApart />
      </div>
      {refused.map((w) => (
        <Refused key={id_of(w)} waiting={w} />
      ))}
      {ready_now.value.map((dough) => (
        <p class="ready-now" role="alert" key={dough.bake}>
          <a href={link("bake", dough.bake, "read")}>
            <strong>{dough.title}</strong>: the ready window is open. Look at the dough.
          </a>{" "}
          <button type="button" onClick={() => (ready_now.value = ready_now.value.filter((d) => d !== dough))}>
            Seen
          </button>
        </p>
      ))}
    </>
  );
}

const why_not: Record<Saving, string> = {
  yes: "",
  read_only: "Nothing can be saved: the daybook can only be read.",
  disk_full: "Nothing can be saved: the server's disk is full.",
  disk_fails: "The server's disk fails: what was saved last may be missing.",
};

function CannotSave({ kept }: { kept: string }) {
  const now_so = cannot_save.value;
  if (!now_so) return null;
  const again = () => {
    cannot_save.value = undefined;
    void outbox().then((box) => box.flush());
  };
  return (
    <p class="strip">
      <strong>{why_not[now_so.why]}</strong> {now_so.detail}{" "}
      {kept ? `${kept} kept here until it can.` : "What you type stays in this browser."}{" "}
      <button type="button" onClick={again}>
        Try again
      </button>
    </p>
  );
}

function Refused({ waiting }: { waiting: Waiting }) {
  const habits = useHabits();
  const at = "reading" in waiting ? from_utc(waiting.reading.at) : undefined;
  const what =
    "reading" in waiting
      ? `The reading of ${at === undefined ? waiting.reading.at : exact_moment(at, habits)}`
      : "jar" in waiting
        ? `The height of ${plain(waiting.jar.look.height_mm, 0, habits)} mm at ${plain(waiting.jar.look.hours, 2, habits)} h`
        : "tick" in waiting
          ? `The tick of “${waiting.tick.mark.what}”`
          : "loaf" in waiting
            ? "A loaf"
            : "A photo of a loaf";
  const forget = async () => (await outbox()).forget(id_of(waiting));
  const drop = async () => {
    await forget();
    can_undo(`${what} is dropped.`, async () => {
      const { refused: _, ...again } = waiting;
      await (await outbox()).add(again as Waiting);
    });
  };
  const put_right = async () => {
    if (!("reading" in waiting)) return;
    const { id: _, bake, at: _at, ...rest } = waiting.reading;
    keep_draft(`read.${bake}`, { ...rest, at: at === undefined ? "" : iso(at) }, 0);
    await forget();
    go(link("bake", bake, "read"));
  };
  return (
    <p class="strip" role="alert">
      {what} was not taken: {waiting.refused}{" "}
      {"reading" in waiting && (
        <button type="button" onClick={() => void put_right()}>
          Put it right
        </button>
      )}{" "}
      <button type="button" class="plain" onClick={() => void drop()}>
        Drop it
      </button>
    </p>
  );
}
