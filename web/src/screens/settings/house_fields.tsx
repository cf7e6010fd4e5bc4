// The house itself, as it signs what it shows and counts its money.
import { useState } from "preact/hooks";
import { words_of } from "../../api/ask";
import { zone_here } from "../../say/clock";
import { Choice, Field } from "../../parts/field";
import { type House, currencies, useHouse } from "../../state/house";
import { useTyping } from "../../state/drafts";

export function HouseFields() {
  const { house, change } = useHouse();
  const typing = useTyping<{ name?: string }>("house.name", {});
  const [wrong, set_wrong] = useState("");
  const set = (what: Partial<House>) =>
    change(what).then(
      () => set_wrong(""),
      (error: unknown) => set_wrong(words_of(error)),
    );
  return (
    <section class="stack" aria-labelledby="the-house">
      <h2 id="the-house">The house</h2>
      <div class="pair">
        <Field label="Its name" hint="on what is shown to others" wrong={wrong || undefined}>
          {(attributes) => (
            <input
              {...attributes}
              maxLength={80}
              value={typing.value.name ?? house.name}
              onInput={(e) => typing.set({ name: e.currentTarget.value })}
              onBlur={() => typing.value.name !== undefined && void set({ name: typing.value.name }).then(typing.clear)}
            />
          )}
        </Field>
        <Field label="Its colour">{(attributes) => <input {...attributes} type="color" value={house.accent} onChange={(e) => void set({ accent: e.currentTarget.value })} />}</Field>
        <Choice label="Currency" value={house.currency} options={currencies.map((c) => [c, c] as const)} give={(currency) => void set({ currency })} />
        <Choice label="Time zone" value={house.zone} options={[...new Set([house.zone, zone_here()])].map((z) => [z, z] as const)} give={(zone) => void set({ zone })} />
      </div>
      {house.zone !== zone_here() && <p class="note">This device goes by {zone_here()}: what it shows is that clock's time, not the house's.</p>}
    </section>
  );
}
