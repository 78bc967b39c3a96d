/** The page's policy forbids making code from text: the schema library is told so before it tries. Imported first. */
import {config} from "zod";

config({jitless: true});
