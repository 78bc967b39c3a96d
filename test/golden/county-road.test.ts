/**
 * The example runs to its table of lives. The table is a golden: it shows what moved, not what is true. A change of more
 * than the accuracy asked for belongs in the changelog under "Results changed".
 */
import {goldenLives} from "./lives.ts";

goldenLives("county-road");
