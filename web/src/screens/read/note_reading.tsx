// The next reading of a dough: slid or typed, kept at every key until it is noted.
import { useState } from "preact/hooks";
import { words_of } from "../../api/ask";
import type { Bake } from "../../api/bakes";
import type { ReadingRecordChange } from "../../api/types";
import { Field, Figure } from "../../parts/field";
import { type Moment, ago, exact_moment, from_utc, hours_between, moment_of, now, to_utc } from "../../say/clock";
import type { Habits } from "../../say/habits";
import { plain, times, useHabits } from "../../say/say";
import * as typed from "../../say/typed";
import { in_question, server_now } from "../../state/clock";
import { type Typing, give_up } from "../../state/drafts";
import { new_id, outbox } from "../../state/outbox";
import { can_undo } from "../../state/undo";
import { WhenField } from "../../parts/when_field";
import { Refused } from "../../parts/states";

/** What is typed of the next reading. */
export interface Noting extends Required<Pick<ReadingRecordChange, "sample_C" | "bulk_C" | "room_C" | "ph" | "remark">> {
  height_mm: number | null;
  at: string;
}

export const nothing_typed: Noting = { height_mm: null, at: "", sample_C: null, bulk_C: null, room_C: null, ph: null, remark: "" };

/** A height that was slid longer ago says nothing of the dough as it stands. */
export const fresh_h = 0.5;

/** For how long what is typed has lain there. */
export const lies_h = ({ kept_at }: Typing<Noting>) => (kept_at === undefined ? 0 : hours_between(from_utc(kept_at) ?? now(), now()));

const filled = (more: Partial<Noting>) => Object.fromEntries(Object.entries(more).filter(([, value]) => value !== null && value !== ""));

/** Why a reading of that moment cannot be; nothing when it can. */
function not_yet(moment: Moment, mixing: boolean, habits: Habits): string | undefined {
  const minute = 60_000;
  if (moment > now() + minute) {
    const way_out = mixing ? "Press “Mixed just now” on the bench sheet, or put the time right." : "Put the time right.";
    return `${exact_moment(moment, habits)} is still to come; it is ${exact_moment(now(), habits)}. ${way_out}`;
  }
  if (in_question() && moment > server_now() + minute) {
    return `By the server's clock ${exact_moment(moment, habits)} is still to come. Say at the top which clock is right, then note it again.`;
  }
  return undefined;
}

export function NoteReading(props: { record: Bake; start: number | undefined; height: number; typing: Typing<Noting>; mixed: Moment | undefined }) {
  const { record, start, height, typing, mixed } = props;
  const habits = useHabits();
  const [said, set_said] = useState("");
  const [wrong, set_wrong] = useState("");
  const { at, height_mm: _, ...more } = typing.value;
  const set_more = (what: Partial<Noting>) => typing.set(what);
  const set_height = (mm: number) => typing.set({ height_mm: mm });
  const at_start = start === undefined;
  const left_h = lies_h(typing);
  const note = async () => {
    const typed_at = moment_of(at);
    const at_mixing = typed_at === undefined && at_start && mixed !== undefined;
    const moment = typed_at ?? (at_mixing ? mixed : now());
    const why = not_yet(moment, at_mixing, habits);
    set_wrong(why ?? "");
    if (why !== undefined) return;
    try {
      const reading = { id: new_id(), bake: record.id, at: to_utc(moment), height_mm: Math.round(height * 10) / 10, ...filled(more) };
      await (await outbox()).add({ reading, by_clock: typed_at === undefined && !at_mixing }, typing.clear);
      set_said(`Noted: ${plain(height, 0, habits)} mm at ${exact_moment(moment, habits)}.`);
    } catch (error) {
      set_said(words_of(error));
    }
  };
  const high = Math.max(140, Math.ceil((start ?? 40) * 3.5));
  const step = (by: number) => set_height(Math.min(high, Math.max(1, Math.round(height) + by)));
  return (
    <form
      class="note-reading stack tight"
      onSubmit={(event) => {
        event.preventDefault();
        void note();
      }}
    >
      {left_h >= fresh_h && (
        <p class="note small">
          Typed {ago(from_utc(typing.kept_at ?? ""))} and not noted.{" "}
          <button type="button" class="plain" onClick={() => can_undo("What you typed is dropped.", give_up(`read.${record.id}`))}>
            Drop it
          </button>
        </p>
      )}
      {at_start && <p>First the mark: how high did the dough stand when it was mixed?</p>}
      <div class="steps height">
        <button type="button" class="square" aria-label="One millimetre less" onClick={() => step(-1)}>
          −
        </button>
        <Figure
          label={at_start ? "Height at mixing (mm)" : "Height now (mm)"}
          shown={plain(height, Number.isInteger(height) ? 0 : 1, habits)}
          read={typed.height}
          give={set_height}
        />
        <button type="button" class="square" aria-label="One millimetre more" onClick={() => step(1)}>
          +
        </button>
      </div>
      <input
        type="range"
        class="thumb"
        aria-label="Slide the height, in millimetres"
        aria-valuetext={`${plain(height, 0, habits)} millimetres${start ? `, ${times(height / start, habits)}` : ""}`}
        min={1}
        max={high}
        step={1}
        value={Math.round(height)}
        onInput={(e) => set_height(Number(e.currentTarget.value))}
      />
      <button type="submit" class="main">
        {at_start ? "Note the mark" : "Note it"}
      </button>
      <p role="status">{said}</p>
      <Refused why={wrong} />
      <details open={typing.typed_before && (at !== "" || Object.values(more).some((value) => value !== null && value !== ""))}>
        <summary>Another time, warmth, pH</summary>
        <div class="pair">
          <WhenField label="When" empty="now" value={at} give={(text) => set_more({ at: text })} />
          <OptionalFigure label={`Sample in the jar (°${habits.warmth})`} value={more.sample_C} warm give={(v) => set_more({ sample_C: v })} />
          <OptionalFigure label={`Bulk (°${habits.warmth})`} value={more.bulk_C} warm give={(v) => set_more({ bulk_C: v })} />
          <OptionalFigure label={`Room (°${habits.warmth})`} value={more.room_C} warm give={(v) => set_more({ room_C: v })} />
          <OptionalFigure label="pH" value={more.ph} give={(v) => set_more({ ph: v })} />
          <Field label="Remark">
            {(attributes) => <input {...attributes} value={more.remark ?? ""} onInput={(e) => set_more({ remark: e.currentTarget.value })} />}
          </Field>
        </div>
      </details>
    </form>
  );
}

function OptionalFigure(props: { label: string; value: number | null | undefined; warm?: boolean; give: (value: number | null) => void }) {
  const habits = useHabits();
  const shown = props.value === null || props.value === undefined ? "" : plain(props.warm && habits.warmth === "F" ? props.value * 1.8 + 32 : props.value, 1, habits);
  return (
    <Figure<number | null>
      label={props.label}
      shown={shown}
      read={(text) => (text.trim() === "" ? { ok: true, value: null } : props.warm ? typed.dough_warmth(text, habits) : typed.ph(text))}
      give={props.give}
    />
  );
}
