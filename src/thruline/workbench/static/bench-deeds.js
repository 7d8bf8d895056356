// What is done at the bench, and what it says.

import { pick } from "./make.js";
import { HERE, post } from "./rig.js";

export function tell(text, isBad = false) {
  const said = pick("said");
  said.className = isBad ? "bad" : "";
  said.textContent = text;
}

// Gives whether it was done; what comes of it arrives through the live socket.
export async function deed(name, asked = {}, done = "") {
  try {
    const told = await post(`${HERE}/bench/do/${name}`, asked);
    tell(told.says || done);
    return true;
  } catch (trouble) {
    tell(trouble.message, true);
    return false;
  }
}
