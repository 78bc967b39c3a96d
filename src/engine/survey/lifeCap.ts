/** A longer computed life is no prediction: other causes end a pavement before [years] (common practice, no source). */
export const LIFE_CAP = 100;
