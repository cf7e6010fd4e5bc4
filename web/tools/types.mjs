// Writes src/api/types.ts from docs/openapi.json: one TypeScript type a schema.
//     node tools/types.mjs            writes it
//     node tools/types.mjs --check    fails when it is not what would be written
import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const from = process.env.BARM_OPENAPI ?? fileURLToPath(new URL("../../docs/openapi.json", import.meta.url));
const to = fileURLToPath(new URL("../src/api/types.ts", import.meta.url));

const name_of = (ref) => ref.split("/").pop();
const key = (name) => (/^[A-Za-z_]\w*$/.test(name) ? name : JSON.stringify(name));

/** A JSON schema as a TypeScript type. */
function type(schema, indent = "") {
  if (schema.$ref) return name_of(schema.$ref);
  if ("const" in schema) return JSON.stringify(schema.const);
  if (schema.enum) return schema.enum.map((v) => JSON.stringify(v)).join(" | ");
  const choices = schema.oneOf ?? schema.anyOf;
  if (choices) return choices.map((c) => type(c, indent)).join(" | ");
  if (Array.isArray(schema.type)) return schema.type.map((t) => type({ ...schema, type: t }, indent)).join(" | ");
  switch (schema.type) {
    case "integer":
    case "number": return "number";
    case "string": return "string";
    case "boolean": return "boolean";
    case "null": return "null";
    case "array": {
      const item = type(schema.items ?? {}, indent);
      return /[|{ ]/.test(item) && !item.startsWith("{") ? `(${item})[]` : `${item}[]`;
    }
    case "object": return object(schema, indent);
    default: return "unknown";
  }
}

function object(schema, indent) {
  if (!schema.properties) {
    const values = typeof schema.additionalProperties === "object" ? type(schema.additionalProperties, indent) : "unknown";
    return `Record<string, ${values}>`;
  }
  const deeper = `${indent}  `;
  const lines = Object.entries(schema.properties).map(([name, property]) => {
    const note = property.description ? `${deeper}/** ${property.description} */\n` : "";
    const maybe = (schema.required ?? []).includes(name) ? "" : "?";
    return `${note}${deeper}${key(name)}${maybe}: ${type(property, deeper)};`;
  });
  return `{\n${lines.join("\n")}\n${indent}}`;
}

const { components } = JSON.parse(readFileSync(from, "utf8"));
const written = [
  "// Written by tools/types.mjs from docs/openapi.json; do not edit.\n",
  ...Object.entries(components.schemas)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, schema]) => {
      const note = schema.description ? `/** ${schema.description} */\n` : "";
      return `${note}export type ${name} = ${type(schema)};\n`;
    }),
].join("\n");

if (process.argv.includes("--check")) {
  if (readFileSync(to, "utf8") !== written) {
    console.error("src/api/types.ts is not what docs/openapi.json says: run  node tools/types.mjs");
    process.exit(1);
  }
} else {
  writeFileSync(to, written);
}
