// Every screen at a desk.
import { desk } from "./house.mjs";
import { every_screen } from "./screens.mjs";

every_screen("desk", desk);
