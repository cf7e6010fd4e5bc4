// A bake drawn on paper to be shown to others: photo, measured curve, recipe, one honest sentence, the house's name.

export interface Card {
  title: string;
  lines: readonly { name: string; amount: string; weight: string }[];
  readings: readonly { t_h: number; ratio: number }[];
  sentence: string;
  /** The flour that percent is of. */
  percent_of: string;
  house: string;
  accent: string;
  photo: ImageBitmap | undefined;
}

export const shapes = { wide: [1600, 900], square: [1080, 1080], upright: [900, 1600] } as const;
export type Shape = keyof typeof shapes;

const paper = "#f6f2e7";
const ink = "#212d29";
const pale = "#53605a";
const serif = '"Iowan Old Style", "Palatino Linotype", "URW Palladio L", P052, serif';
const sans = 'Seravek, Ubuntu, Calibri, "DejaVu Sans", sans-serif';

interface Box {
  x: number;
  y: number;
  w: number;
  h: number;
}

/** Words in lines of that width; gives the y below them. */
function wrapped(pen: CanvasRenderingContext2D, text: string, x: number, y: number, width: number, line: number): number {
  let row = "";
  for (const word of text.split(" ")) {
    const next = row ? `${row} ${word}` : word;
    if (row && pen.measureText(next).width > width) {
      pen.fillText(row, x, y);
      y += line;
      row = word;
    } else {
      row = next;
    }
  }
  pen.fillText(row, x, y);
  return y + line;
}

function photo(pen: CanvasRenderingContext2D, picture: ImageBitmap, { x, y, w, h }: Box): void {
  const scale = Math.max(w / picture.width, h / picture.height);
  const [sw, sh] = [w / scale, h / scale];
  pen.drawImage(picture, (picture.width - sw) / 2, (picture.height - sh) / 2, sw, sh, x, y, w, h);
}

function curve(pen: CanvasRenderingContext2D, readings: Card["readings"], accent: string, { x, y, w, h }: Box): void {
  const last = Math.max(...readings.map((r) => r.t_h), 1);
  const top = Math.max(...readings.map((r) => r.ratio), 2) * 1.1;
  const [left, bottom] = [x + 70, y + h - 50];
  const px = (t: number) => left + (t / last) * (x + w - left - 20);
  const py = (ratio: number) => bottom - ((ratio - 0.9) / (top - 0.9)) * (bottom - y - 20);
  pen.strokeStyle = "#d6cfbc";
  pen.fillStyle = pale;
  pen.lineWidth = 2;
  pen.font = `26px ${sans}`;
  for (let ratio = 1; ratio <= top; ratio += 0.5) {
    pen.beginPath();
    pen.moveTo(left, py(ratio));
    pen.lineTo(x + w - 20, py(ratio));
    pen.stroke();
    pen.textAlign = "right";
    pen.fillText(`${ratio}×`, left - 10, py(ratio) + 9);
  }
  pen.textAlign = "center";
  const step = [1, 2, 4, 6, 12, 24].find((s) => last / s <= 6) ?? 24;
  for (let t = 0; t <= last; t += step) pen.fillText(`${t} h`, px(t), bottom + 36);
  pen.textAlign = "left";
  pen.strokeStyle = pen.fillStyle = accent;
  pen.lineWidth = 5;
  pen.beginPath();
  readings.forEach((r, i) => (i === 0 ? pen.moveTo(px(r.t_h), py(r.ratio)) : pen.lineTo(px(r.t_h), py(r.ratio))));
  pen.stroke();
  for (const r of readings) {
    pen.beginPath();
    pen.arc(px(r.t_h), py(r.ratio), 9, 0, 7);
    pen.fill();
  }
}

function recipe(pen: CanvasRenderingContext2D, lines: Card["lines"], { x, y, w, h }: Box): void {
  const row = Math.min(52, h / Math.max(lines.length, 1));
  lines.forEach((line, i) => {
    const at = y + row * (i + 0.75);
    pen.fillStyle = ink;
    pen.font = `${0.6 * row}px ${sans}`;
    pen.fillText(line.name, x, at);
    pen.font = `600 ${0.6 * row}px ${serif}`;
    pen.textAlign = "right";
    pen.fillText(line.weight, x + w, at);
    pen.textAlign = "left";
  });
}

export function draw(canvas: HTMLCanvasElement, shape: Shape, card: Card): void {
  const [w, h] = shapes[shape];
  canvas.width = w;
  canvas.height = h;
  const pen = canvas.getContext("2d");
  if (!pen) return;
  pen.fillStyle = paper;
  pen.fillRect(0, 0, w, h);
  const edge = 60;
  pen.fillStyle = card.accent;
  pen.fillRect(0, 0, w, 18);
  pen.fillStyle = ink;
  pen.font = `600 60px ${serif}`;
  let y = wrapped(pen, card.title, edge, 110, w - 2 * edge, 66);
  pen.fillStyle = card.accent;
  pen.font = `34px ${sans}`;
  y = wrapped(pen, card.sentence, edge, y, w - 2 * edge, 42);
  const room = { x: edge, y, w: w - 2 * edge, h: h - y - 90 };
  const boxes = parted(shape, room, card);
  if (card.photo && boxes.photo) photo(pen, card.photo, boxes.photo);
  if (boxes.curve) curve(pen, card.readings, card.accent, boxes.curve);
  recipe(pen, card.lines, boxes.recipe);
  pen.fillStyle = pale;
  pen.font = `30px ${serif}`;
  pen.fillText(card.house, edge, h - 36);
}

const gap = 40;

/** Where each part stands: side by side on a wide picture, one below the other on an upright one. */
function parted(shape: Shape, room: Box, card: Card): { photo?: Box; curve?: Box; recipe: Box } {
  const parts = [...(card.photo ? (["photo"] as const) : []), ...(card.readings.length > 1 ? (["curve"] as const) : []), "recipe" as const];
  const out: Partial<Record<"photo" | "curve" | "recipe", Box>> = {};
  const across = shape === "wide";
  const columns = across ? parts.length : shape === "square" && parts.length === 3 ? 2 : 1;
  const rows = Math.ceil(parts.length / columns);
  parts.forEach((part, i) => {
    const in_row = i >= (rows - 1) * columns ? parts.length - (rows - 1) * columns : columns;
    const w = (room.w - gap * (in_row - 1)) / in_row;
    const h = (room.h - gap * (rows - 1)) / rows;
    out[part] = { x: room.x + (i % columns) * (w + gap), y: room.y + Math.floor(i / columns) * (h + gap), w, h };
  });
  return { ...out, recipe: out.recipe ?? room };
}
