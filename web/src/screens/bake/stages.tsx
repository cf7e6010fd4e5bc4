// The stages from mixing to the oven, in order.
import type { Problem } from "../../api/types";
import { Choice } from "../../parts/field";
import { Fold } from "../../parts/fold";
import { Measure } from "../../parts/measure";
import { type Stage, set_stage, set_stages, stages } from "../../state/bake";
import type { BakeDraft } from "../../state/bake_draft";
import { problem_at } from "./problem";

const kinds = ["mix", "bulk", "fold", "divide", "shape", "proof", "cold"] as const;

const fields: Record<string, readonly (readonly [key: string, label: string, unit: string, such_as: string])[]> = {
  bulk: [["temperature", "Warmth", "C", "24"], ["until", "Until", "", "doubled"], ["for", "Or for (h)", "h", "5"], ["where", "Where", "", "proofing box"]],
  fold: [["after", "After (h)", "h", "1"]],
  proof: [["temperature", "Warmth", "C", "24"], ["for", "For (h)", "h", "2"], ["until", "Or until", "", "1.5 x"]],
  cold: [["temperature", "Warmth", "C", "4"], ["for", "For (h)", "h", "12"]],
};

export function StageFields(props: { draft: BakeDraft; problem: Problem | undefined }) {
  const { form, change } = props.draft;
  const all = stages(form);
  const give = (at: number, stage: Stage, key: string, value: string | undefined) => {
    const { [key]: _, ...rest } = stage;
    change(set_stage(form, at, value === undefined ? rest : { ...stage, [key]: value }));
  };
  const move = (at: number, by: -1 | 1) => {
    const next = [...all];
    const [stage] = next.splice(at, 1);
    if (stage) next.splice(at + by, 0, stage);
    change(set_stages(form, next));
  };
  return (
    <Fold title="The stages" fact={all.map((stage) => String(stage.do)).join(", ")} seldom open={problem_at(props.problem, "stage") !== undefined}>
      <ol class="bare stack tight">
        {all.map((stage, at) => (
          <li key={at} class="sheet stack tight">
            <div class="row apart">
              <div class="grow">
                <Choice
                  label={`Stage ${at + 1}`}
                  value={String(stage.do ?? "bulk")}
                  options={kinds.map((k) => [k, k] as const)}
                  give={(kind) => change(set_stage(form, at, { do: kind }))}
                />
              </div>
              <div class="row">
                <button type="button" class="square" aria-label={`Stage ${at + 1} earlier`} disabled={at === 0} onClick={() => move(at, -1)}>
                  ↑
                </button>
                <button type="button" class="square" aria-label={`Stage ${at + 1} later`} disabled={at === all.length - 1} onClick={() => move(at, 1)}>
                  ↓
                </button>
                <button type="button" class="square" aria-label={`Take stage ${at + 1} out`} onClick={() => change(set_stages(form, all.filter((_, i) => i !== at)))}>
                  ✕
                </button>
              </div>
            </div>
            {fields[String(stage.do)] && (
              <div class="pair">
                {fields[String(stage.do)]?.map(([key, words, unit, such_as]) => (
                  <Measure
                    key={key}
                    label={words}
                    unit={unit}
                    text={stage[key]}
                    such_as={such_as}
                    give={(text) => give(at, stage, key, text)}
                    wrong={problem_at(props.problem, "stage", String(at), key)}
                  />
                ))}
              </div>
            )}
            {problem_at(props.problem, "stage", String(at)) && <p class="wrong">{problem_at(props.problem, "stage", String(at))}</p>}
          </li>
        ))}
      </ol>
      <p>
        <button type="button" onClick={() => change(set_stages(form, [...all, { do: "proof", temperature: "24 C", for: "2 h" }]))}>
          + Add a stage
        </button>
      </p>
    </Fold>
  );
}
