// What a rise curve is drawn from.

export interface RisePoint {
  t_h: number;
  p10_ratio: number;
  p50_ratio: number;
  p90_ratio: number;
}
export interface RiseRun {
  name: string;
  points: readonly RisePoint[];
  readings?: readonly { t_h: number; ratio: number }[];
}
