// The Stage page in a file of its own: the set stands in it, and it asks nobody.

import { take } from "./stage-set.js";

take(JSON.parse(document.getElementById("held").textContent));
document.body.dataset.ready = "stage";
