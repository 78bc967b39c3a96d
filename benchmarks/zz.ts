import {riskSamples} from "./life/risk.ts"; await riskSamples({node: process.version});
