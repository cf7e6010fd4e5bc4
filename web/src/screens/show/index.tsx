// A bake as others may see it: a finished page and pictures on paper, wide, square and upright, seen before they are fetched.
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import { type Bake, mixed_of } from "../../api/bakes";
import type { BowlAnswer, LoafRecordList, PhotoRecordList, ReadingRecordList } from "../../api/types";
import { useAnswer } from "../../api/use";
import { BakeFrame } from "../../parts/bake_frame";
import { useReadySaid } from "../../parts/ready_said";
import { exact_moment } from "../../say/clock";
import { lasting, percent, times, useHabits, weight } from "../../say/say";
import type { Habits } from "../../say/habits";
import type { Params } from "../../shell/names";
import { useAsked } from "../../state/asked";
import { useHouse } from "../../state/house";
import { readings_of_bake } from "../../state/known_readings";
import { ratios } from "../../state/readings";
import { type Card, type Shape, draw, shapes } from "./card";
import "./show.css";

export default function ShowScreen({ params }: { params: Params }) {
  return (
    <BakeFrame id={params.id ?? ""} here="Show">
      {(record) => <Show key={record.id} record={record} />}
    </BakeFrame>
  );
}

type Read = { t_h: number; ratio: number };

/** When it had doubled, as it was read; the hour between two readings is on the line between them. */
function doubled_h(read: readonly Read[]): number | undefined {
  for (let i = 1; i < read.length; i++) {
    const [a, b] = [read[i - 1], read[i]];
    if (a && b && a.ratio < 2 && b.ratio >= 2) return a.t_h + ((2 - a.ratio) / (b.ratio - a.ratio)) * (b.t_h - a.t_h);
  }
  return undefined;
}

/** What was seen of it; what is foretold stands behind it, in the words of its recipe. */
function honest(read: readonly Read[], mixed: string, habits: Habits): string {
  if (read.length < 2) return `${mixed}Nobody read how it rose.`;
  const doubled = doubled_h(read);
  const most = Math.max(...read.map((r) => r.ratio));
  return `${mixed}${doubled === undefined ? `Risen to ${times(most, habits)}` : `Doubled after ${lasting(doubled)}`}, read ${read.length} times.`;
}

function usePhoto(bake: string): ImageBitmap | undefined {
  const loaves = useAnswer<LoafRecordList>(`/api/loaves?owner=${bake}&limit=50`, ["loaf"]).answer?.loaves;
  const newest = loaves?.[0]?.id;
  const photos = useAnswer<PhotoRecordList>(newest ? `/api/photos?owner=${newest}` : undefined, ["photo"]).answer?.photos;
  const id = photos?.[0]?.id;
  const [picture, set_picture] = useState<ImageBitmap | undefined>(undefined);
  useEffect(() => {
    if (!id) return undefined;
    let gone = false;
    fetch(`/api/photos/${id}/picture`)
      .then((answer) => answer.blob())
      .then(createImageBitmap)
      .then(
        (bitmap) => gone || set_picture(bitmap),
        () => undefined,
      );
    return () => {
      gone = true;
    };
  }, [id]);
  return picture;
}

function Show({ record }: { record: Bake }) {
  const habits = useHabits();
  const { house } = useHouse();
  const photo = usePhoto(record.id);
  const readings = useAnswer<ReadingRecordList>(readings_of_bake(record.id), ["reading"]).answer?.readings;
  const bowl = useAsked<BowlAnswer>("/api/bowl", { bake_id: record.id }).answer?.bowl;
  const mixed = mixed_of(record, record.form);
  const ready = useReadySaid(record)?.line;
  const card = useMemo<Card>(() => {
    const read = ratios(readings ?? [], mixed);
    return {
      title: record.title,
      lines: (bowl?.lines ?? []).map((l) => ({ name: l.ingredient, amount: percent(l.of_flour, habits), weight: weight(l.actual_g, habits) })),
      readings: read,
      percent_of: bowl?.percent_of ?? "",
      sentence: [honest(read, mixed === undefined ? "" : `Mixed ${exact_moment(mixed, habits)}. `, habits), ...(ready === undefined ? [] : [`${ready}.`])].join(" "),
      house: house.name || "Made with Barmwright",
      accent: house.accent,
      photo,
    };
  }, [record, bowl, readings, photo, ready, house.name, house.accent, habits]);
  return (
    <div class="stack">
      <p>Photo, measured curve, recipe and one honest sentence, in the name and colour of the house.</p>
      <div class="show-cards">
        {(Object.keys(shapes) as Shape[]).map((shape) => (
          <Picture key={shape} shape={shape} card={card} />
        ))}
      </div>
      <Page card={card} />
    </div>
  );
}

const file_name = (title: string) => title.toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "") || "bake";

function fetch_file(name: string, blob: Blob): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  URL.revokeObjectURL(link.href);
}

function Picture({ shape, card }: { shape: Shape; card: Card }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    if (canvas.current) draw(canvas.current, shape, card);
  }, [shape, card]);
  const save = () => canvas.current?.toBlob((blob) => blob && fetch_file(`${file_name(card.title)}-${shape}.png`, blob), "image/png");
  return (
    <figure class="stack tight">
      <canvas ref={canvas} role="img" aria-label={`${card.title}, ${shape}: ${card.sentence}`} />
      <div>
        <button type="button" onClick={save}>
          Save the {shape} picture
        </button>
      </div>
    </figure>
  );
}

const escaped = (text: string) => text.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);

/** One file that stands alone. */
function page_of(card: Card, picture: string): string {
  const rows = card.lines.map((l) => `<tr><td>${escaped(l.name)}</td><td>${escaped(l.weight)}</td><td>${escaped(l.amount)}</td></tr>`).join("\n");
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>${escaped(card.title)}</title>
<style>body{font:18px/1.5 serif;color:#212d29;background:#f6f2e7;max-width:46rem;margin:2rem auto;padding:0 1rem}img{width:100%}td{padding:.2rem 1.5rem .2rem 0}h1{border-top:.4rem solid ${card.accent};padding-top:1rem}</style></head>
<body><h1>${escaped(card.title)}</h1><p>${escaped(card.sentence)}</p><img alt="" src="${picture}"><table>${rows}</table><p>${escaped(`Percent is of ${card.percent_of}.`)}</p><p>${escaped(card.house)}</p></body></html>
`;
}

function Page({ card }: { card: Card }) {
  const save = () => {
    const canvas = document.createElement("canvas");
    draw(canvas, "wide", card);
    fetch_file(`${file_name(card.title)}.html`, new Blob([page_of(card, canvas.toDataURL("image/png"))], { type: "text/html" }));
  };
  return (
    <div>
      <button type="button" class="main" onClick={save}>
        Save the page
      </button>
    </div>
  );
}
