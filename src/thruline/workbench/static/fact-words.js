// What keys of a document are called on a page, where the key alone leaves one guessing.

const MEASURES = { ms: "ms", us: "µs", ns: "ns" }; // the end of a key that says what is counted
const MM = new Set(["width", "depth", "height", "along"]);
const MEANINGS = {
  odds: "how likely it fails so",
  bond: "sockets joined inside",
  settle: "while it loads a program",
  output: "what leaves a MIDI output",
  source: "where facts come from",
  accept: "findings that are lived with",
};
const HINTS = { finding: "the id of a finding; or press “Live with it” on its card" };

export const words = (key) => key.replaceAll("-", " ");

// A fact by its key, with what it is counted in.
export function factWords(key, address) {
  const [, name, end] = key.match(/^(.+)-(ms|us|ns)$/) ?? [];
  if (name) return `${words(name)}, ${MEASURES[end]}`;
  const isMeasure = MM.has(key) && !/banks|slots/.test(address);
  return isMeasure ? `${words(key)}, mm` : words(key);
}

// A clause by its key, and what it is about.
export const clauseWords = (key) => (MEANINGS[key] ? `${words(key)}: ${MEANINGS[key]}` : words(key));

export const hintOf = (fact) => (fact.example ? `such as ${fact.example}` : HINTS[fact.key] ?? fact.usual);

export function oneOf(word) {
  if (word.endsWith("s")) return word;
  return /^[aeiou]/.test(word) ? `an ${word}` : `a ${word}`;
}
