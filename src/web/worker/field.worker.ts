/** Entry of the thread that works out what is around a joint. */
import {expose} from "comlink";
import {type FieldRequest, fieldAround} from "../../engine/life/index.ts";
import {outcomeOf} from "./outcome.ts";

const around = (request: FieldRequest) => outcomeOf(() => fieldAround(request));
export type Around = typeof around;

expose(around);
