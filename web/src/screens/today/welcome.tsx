// The first minute: what this does, a bakery to look round in, the first bake.
import { link } from "../../shell/router";
import { LookRound } from "./invented";

export function Welcome() {
  return (
    <div class="stack welcome">
      <h1>Bread with wine, beer, mead or coffee in place of its water</h1>
      <p class="lead">You say what goes into the bowl; this says when the dough will be ready, how sure that is, and what slows it.</p>
      <div class="row">
        <a class="button main" href={link("first")}>
          My first bake
        </a>
        <LookRound />
      </div>
      <p class="quiet">
        <a href={link("guide")}>The first week, in ten short pages</a>
      </p>
    </div>
  );
}
