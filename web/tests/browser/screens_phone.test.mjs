// Every screen on a phone.
import { phone } from "./house.mjs";
import { every_screen } from "./screens.mjs";

every_screen("phone", phone);
