// The parts of a screen as a row of leaves under its name: one is looked at.
export function Leaves<Key extends string>(props: { label: string; leaves: readonly (readonly [Key, string])[]; here: Key; give: (leaf: Key) => void }) {
  return (
    <div class="leaves" role="group" aria-label={props.label}>
      {props.leaves.map(([key, words]) => (
        <button key={key} type="button" aria-pressed={props.here === key} onClick={() => props.give(key)}>
          {words}
        </button>
      ))}
    </div>
  );
}
