/** Whose memory a forecast starts from; nothing where it starts from a typical starter. */
export function Begun({ culture }: { culture: string | undefined }) {
  return culture ? <p class="quiet">It starts from what {culture} has taught.</p> : null;
}
