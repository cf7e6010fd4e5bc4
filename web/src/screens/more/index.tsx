// On a phone: the places that have no room in the bar.
import { names } from "../../shell/names";
import { link } from "../../shell/router";

export default function MoreScreen() {
  return (
    <div class="stack">
      <h1>More</h1>
      <ul class="bare picker">
        {names
          .filter((place) => place.found === "rail")
          .map((place) => (
            <li key={place.pattern}>
              <a class="button" href={link(place.pattern)}>
                {place.title}
              </a>
            </li>
          ))}
      </ul>
    </div>
  );
}
