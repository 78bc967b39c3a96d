/** Short sentences on what has just happened, shown until they are dismissed or replaced. */
import {create} from "zustand";

export interface Notice {
  readonly kind: "good" | "bad";
  readonly text: string;
}

export const useNotice = create<{readonly notice: Notice | null}>(() => ({notice: null}));

export function tell(notice: Notice | null): void {
  useNotice.setState({notice});
}
