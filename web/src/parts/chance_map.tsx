// How far the drink can go: the chance to be ready in time over its share and the warmth, the starter or the hours, as a
// picture with lines; asked anew as the sliders move.
import { useEffect, useRef, useState } from "preact/hooks";
import { anew, is_abort, post } from "../api/ask";
import type { MapAnswer } from "../api/test_bakes";
import { Choice } from "./field";
import { Failed, Waiting } from "./states";
import { odds, percent, plain, useHabits, warmth } from "../say/say";
import type { Habits } from "../say/habits";
import "./chance_map.css";

type Up = "temperature" | "starter" | "time";
const ups: readonly (readonly [Up, string])[] = [
  ["temperature", "how warm the dough stands"],
  ["starter", "how much starter"],
  ["time", "how many hours"],
];

/** `asked`: the bake, as the server takes it. */
export function ChanceMap({ asked, within_h }: { asked: object; within_h: number }) {
  const habits = useHabits();
  const [up, set_up] = useState<Up>("temperature");
  const [map, set_map] = useState<MapAnswer | undefined>(undefined);
  const [error, set_error] = useState<unknown>(undefined);
  const sent = JSON.stringify(asked);
  useEffect(() => {
    const stop = new AbortController();
    const fetch_map = async () => {
      try {
        // A coarse picture at once, the fine one after it.
        for (const draws of [60, 300]) {
          set_map(await post<MapAnswer>("/api/map", { ...JSON.parse(sent), up, within_h, draws }, { signal: stop.signal }));
          set_error(undefined);
        }
      } catch (wrong) {
        if (!is_abort(wrong)) set_error(wrong);
      }
    };
    void fetch_map();
    return () => stop.abort();
  }, [sent, up, within_h, anew.value]);
  return (
    <section class="stack tight" aria-labelledby="map">
      <h2 id="map">Where it works</h2>
      <Choice label="Up the side" value={up} options={ups} give={set_up} />
      {error ? <Failed error={error} /> : null}
      {!map && !error && <Waiting what="Drawing the map…" />}
      {map && <Picture map={map} habits={habits} />}
    </section>
  );
}

const wide = 640;
const high = 420;
const edge = { left: 70, right: 16, top: 10, bottom: 46 };

function Picture({ map, habits }: { map: MapAnswer; habits: Habits }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const { share, up } = map;
  const w = wide - edge.left - edge.right;
  const h = high - edge.top - edge.bottom;
  useEffect(() => {
    const node = canvas.current;
    const pen = node?.getContext("2d");
    if (!node || !pen) return;
    node.width = share.cells;
    node.height = up.cells;
    const style = getComputedStyle(node);
    pen.clearRect(0, 0, node.width, node.height);
    pen.fillStyle = style.getPropertyValue("--reed-deep").trim();
    map.chance.forEach((chance, at) => {
      pen.globalAlpha = Math.max(0, Math.min(1, chance));
      pen.fillRect(at % share.cells, up.cells - 1 - Math.floor(at / share.cells), 1, 1);
    });
  }, [map]);
  const x = (cell: number) => edge.left + ((cell + 0.5) / share.cells) * w;
  const y = (cell: number) => edge.top + h - ((cell + 0.5) / up.cells) * h;
  const cell_of = (value: number, axis: { least: number; most: number; cells: number }) => ((value - axis.least) / (axis.most - axis.least)) * (axis.cells - 1);
  const up_words = (value: number) => (up.what === "temperature" ? warmth(value, habits) : up.what === "time" ? `${plain(value, 0, habits)} h` : percent(value, habits));
  const ticks = (axis: { least: number; most: number }) => [0, 0.25, 0.5, 0.75, 1].map((f) => axis.least + f * (axis.most - axis.least));
  const here = ` Where the bake stands now: ${odds(map.now.chance, map.draws)}.`;
  return (
    <figure class="curves map">
      <div class="map-frame">
        <canvas ref={canvas} aria-hidden="true" />
        <svg viewBox={`0 0 ${wide} ${high}`} role="img" aria-label={`Chance to be ready in time over the share of ${map.drink}.${here}`}>
          <rect class="frame" x={edge.left} y={edge.top} width={w} height={h} />
          {map.contours.map((line, i) => {
            // A name a line, each further along its own, so that none lies on another.
            const named = line.points[Math.floor((line.points.length * (1 + Math.round(line.level * 3))) / 5)];
            return (
              <g key={i}>
                <polyline class="contour" points={line.points.map(([cx, cy]) => `${x(cx)},${y(cy)}`).join(" ")} />
                {line.points.length > 4 && named && (
                  <text class="level" x={x(named[0])} y={y(named[1])}>
                    {odds(line.level, 100)}
                  </text>
                )}
              </g>
            );
          })}
          <circle class="here" cx={x(cell_of(map.now.share, share))} cy={y(cell_of(map.now.up, up))} r="7" />
          {ticks(share).map((value, i) => (
            <text key={value} x={x(cell_of(value, share))} y={high - edge.bottom + 18} text-anchor={i === 4 ? "end" : "middle"}>
              {percent(value, habits)}
            </text>
          ))}
          <text x={edge.left + w / 2} y={high - 6} text-anchor="middle">
            {map.drink} in the liquid
          </text>
          {ticks(up).map((value) => (
            <text key={value} x={edge.left - 8} y={y(cell_of(value, up)) + 4} text-anchor="end">
              {up_words(value)}
            </text>
          ))}
        </svg>
      </div>
      <figcaption class="quiet small">
        The fuller the colour, the surer. Lines: where 1 in 4, 1 in 2 and 9 in 10 doughs are ready in time; the ring: this bake as it is.{here} Worked out for {map.draws} doughs.
      </figcaption>
    </figure>
  );
}
