// How another device is let in: the key and the code to scan, on the machine itself.
import type { PairCode } from "../../api/types";
import { useAnswer } from "../../api/use";

export function LetIn() {
  const code = useAnswer<PairCode>("/api/pair").answer;
  if (!code) return null;
  const size = code.squares.length;
  return (
    <section class="stack tight" aria-labelledby="let-in">
      <h2 id="let-in">Let a telephone in</h2>
      {size === 0 ? (
        <p>This machine is on no network now.</p>
      ) : (
        <>
          <p>
            Scan this, or open <span class="figure">{code.address}</span> on the telephone and type <strong class="figure">{code.key}</strong>.
          </p>
          <svg class="qr" viewBox={`0 0 ${size} ${size}`} role="img" aria-label="Code to scan with the telephone's camera" shape-rendering="crispEdges">
            <rect width={size} height={size} fill="white" />
            {code.squares.flatMap((row, y) => [...row].map((square, x) => square === "1" && <rect key={`${x} ${y}`} x={x} y={y} width="1" height="1" fill="black" />))}
          </svg>
        </>
      )}
    </section>
  );
}
